/** What an object states under a name itself: `constructor` and the like are names too. */
export const own = <T>(among: Readonly<Record<string, T>>, name: string): T | undefined =>
  Object.hasOwn(among, name) ? among[name] : undefined;
