/** A path as the document holds it: `/` on every system. */
export function portablePath(path: string): string {
  return path.replaceAll("\\", "/");
}

/** True for a path that leaves the debrief's folder: `..`, absolute, a drive letter, a network share, a URL. */
export function leavesFolder(path: string): boolean {
  const portable = portablePath(path);
  return portable.startsWith("/") || /^[a-z][a-z0-9+.-]*:/i.test(portable) || portable.split("/").includes("..");
}
