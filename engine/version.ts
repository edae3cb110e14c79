/** Version of the engine, as in package.json (a test holds the two together). */
export const VERSION = "0.2.0";
