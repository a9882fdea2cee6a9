/** The thread's own strokes as a sign of how sure something is: firm, dotted, broken. Words always stand beside it. */
export function LineSign({ kind }: { readonly kind: "firm" | "unsure" | "wrong" }) {
  return (
    <svg className={kind === "firm" ? "sign" : `sign ${kind}`} viewBox="0 0 34 10" aria-hidden="true">
      <path d="M2 6 C 9 2, 15 9, 32 4" />
    </svg>
  );
}
