/** Text of the sheet of keys and of About. */
export const shortcuts = {
  title: "Keys that work here",
  about: "About Followcar",
  version: (version: string) => `Followcar ${version}`,
  shells: { electron: "in its own window", chromium: "in a browser's app window" },
  tools: "What it works with",
  logs: "Log",
  logHolds:
    "of the last 10 starts, to help report a fault. It holds no names, places or paths, and nobody gets it unless you send it.",
  packages: "Packages and their licences",
  cache: "Cache",
  cacheHolds: (used: string, limit: string) => `${used} of at most ${limit}; the oldest goes first.`,
  local:
    "Everything stays on this machine. Nothing is sent anywhere, and nothing is fetched: a new version comes only when you install it.",
  theme: "Colours",
  themes: { system: "as the system", light: "light", dark: "dark" },
  cautions: "Cautions",
  cautionLines: [
    "Not a medical device and not medical advice. Heart readings of sports sensors can be wrong.",
    "Stop and seek help for chest pain, faintness or a racing heart. Ask a doctor before training hard with a heart condition.",
    "Brake, coast and stop whenever the road asks for it: a second without pressure in traffic is never a fault.",
    "Never operate a camera while riding. Local law decides where and how you may film.",
  ],
  licence:
    "Licence: MIT. The figures' face is Barlow Semi Condensed (SIL Open Font License). ffmpeg is a program of its own with its own licence.",
} as const;
