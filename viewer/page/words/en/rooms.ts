export const roomWords = {
  notLoaded: "This part of the page could not be loaded",
  loadAgain: "The server did not answer, or has a newer version of the page. Load the page again.",
} as const;
