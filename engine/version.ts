/** Version of the engine, as in package.json (a test checks that they agree). */
export const VERSION = "0.8.0";
