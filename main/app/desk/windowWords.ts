/** What the command line's remedies are called in the window; the first that fits is taken. */
const PHRASES: readonly (readonly [RegExp, string])[] = [
  [/ \(--target \d+\)/g, ", under What was asked"],
  [
    /If this was ridden on a trainer, say so \(--setting trainer\)\./g,
    "If this was ridden on a trainer, say so under What was asked.",
  ],
  [
    /Ask, then say so with --consent "when and how" \([^)]*\), or make/g,
    "Ask, then agree to it below or write it into the athlete's page, or make",
  ],
  [
    /Open it in the window, or watch its film\.mp4 and say so with --seen\./g,
    "Look at it, then agree that it may be handed over.",
  ],
  [
    /Set one anchor at something you see, e\.g\. --anchor \S+, or take it as it is with --accept-unsure\./g,
    "Set one anchor at something you see, or agree that it is shown as it is.",
  ],
  [/(Choose another(?: folder)?) with --(?:out|evidence)\b/g, "$1"],
  [/ with --out\b/g, ""],
  [/Correct (it|that key)[;,] (?:or see: )?`?followcar \w+ --help`?[^.]*\./g, "Correct $1."],
  [
    /another kind of video can be put into MP4 with `ffmpeg [^`]*`\./g,
    "have another kind of video saved as MP4 first.",
  ],
  [
    /Write it anew without loss: `ffmpeg [^`]*`, and use that\./g,
    "Have it written anew as MP4 without loss, and use that.",
  ],
  [/Choose another folder, or change its rights\./g, "Allow writing there, or move away what lies there in its place."],
  [/; `followcar \w+ --help` shows[^.]*\./g, "."],
  [/ \(--[^()]*\)/g, ""],
];

/** A sentence for the window: what it says of the command line's options is said in the window's words. */
export function windowWords(sentence: string): string {
  return PHRASES.reduce((said, [from, to]) => said.replace(from, to), sentence);
}
