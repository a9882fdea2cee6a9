/** What the window's page may load: its own bundle and what the shelf lends, nothing from anywhere else. */
export function contentPolicy(socket: string | null): string {
  return [
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self'",
    "font-src 'self'",
    "img-src 'self' blob: data:",
    "media-src 'self' blob:",
    `connect-src 'self'${socket === null ? "" : ` ${socket}`}`,
    "worker-src 'self'",
    "frame-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
    "require-trusted-types-for 'script'",
    "trusted-types 'none'",
  ].join("; ");
}

/** A page of ours in a frame: its own styles and pictures, no script, no address but its own text. */
export const PAGE_POLICY =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'self'; sandbox";

/** Headers of every answer of the window's origin. */
export function commonHeaders(policy: string): Readonly<Record<string, string>> {
  return {
    "Content-Security-Policy": policy,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=(self), usb=(), serial=(), hid=(), payment=()",
    "Cache-Control": "no-store",
  };
}
