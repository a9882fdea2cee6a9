import type { NoPdf } from "./notices/handover.ts";

/** A page as PDF, or why there is none. */
export type PrintedPage = { readonly pdf: Uint8Array } | { readonly why: NoPdf };

/**
 * Prints an HTML file of ours, without running a script and without the network. Never rejects. The window's two shells
 * each have a way of their own: an installed browser, and Electron itself.
 */
export type PrintPage = (htmlPath: string) => Promise<PrintedPage>;
