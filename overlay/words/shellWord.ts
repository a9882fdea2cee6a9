/** A path as it can be typed into a shell: in quotes where it would be taken apart, never like an option. */
export function shellWord(path: string): string {
  const named = path.startsWith("-") ? `./${path}` : path;
  return /^[\p{L}\p{N}_./:@%+,-]+$/u.test(named) ? named : `"${named.replace(/["$`]/g, "\\$&")}"`;
}
