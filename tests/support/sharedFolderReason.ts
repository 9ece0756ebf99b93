/** Stands in the title of every test that is skipped because `../shared` is absent; the test command looks for it. */
export const sharedFolderAbsent = "skipped: ../shared is not there";
