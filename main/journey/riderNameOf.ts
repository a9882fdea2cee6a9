/** What another rider is called who has no more than a file: its name without what tells the format. */
export function riderNameOf(fileName: string): string {
  return fileName.replace(/\.[^.]*(\.gz)?$/, "");
}
