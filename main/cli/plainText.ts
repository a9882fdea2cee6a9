/** C0 and C1 but tab and line ends (ISO/IEC 6429), and the marks that turn the direction of writing (Unicode Annex 9). */
const COMMANDS = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]|\r(?!\n)/g;

/**
 * A text that a terminal shows and does not obey: a file's name or a card's title comes from strangers, and what it holds
 * of commands to the terminal would clear the screen, colour what follows or say another thing than it is.
 */
export function plainText(text: string): string {
  return text.replace(COMMANDS, "\u{fffd}");
}
