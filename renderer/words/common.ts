/** Words that every screen uses. */
export const common = {
  close: "Close",
  cancel: "Cancel",
  save: "Save",
  remove: "Remove",
  waiting: "waiting its turn",
  today: "today",
  yesterday: "yesterday",
  left: (length: string) => `about ${length} left`,
  between: (least: number, most: number) => `A number from ${least} to ${most}, or nothing.`,
} as const;
