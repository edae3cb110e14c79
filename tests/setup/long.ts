/** Marks a test that takes seconds and stands among short ones: `npm run test:long` runs it, `npm test` does not. */
export const LONG = { tags: ["long"] };
