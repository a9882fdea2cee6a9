/** What may be taken: rides and clips, one folder, one debrief, or where media that are missed may lie. */
export type PickerWants = "files" | "folder" | "debrief" | "media";
