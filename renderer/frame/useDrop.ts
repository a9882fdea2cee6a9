import { useEffect, useState } from "react";

/** Text may be dragged into a field; whatever else is let go over the window stays here and opens nothing. */
function takesText(event: DragEvent): boolean {
  const { target } = event;
  return target instanceof HTMLTextAreaElement || (target instanceof HTMLInputElement && target.type === "text");
}

/** True while files are held over the window; hands them on when they are let go. */
export function useDrop(onFiles: (files: readonly File[]) => void): boolean {
  const [over, setOver] = useState(false);
  useEffect(() => {
    const carriesFiles = (event: DragEvent) => event.dataTransfer?.types.includes("Files") === true;
    const onOver = (event: DragEvent) => {
      const files = carriesFiles(event);
      if (files) setOver(true);
      if (event.defaultPrevented || (!files && takesText(event))) return;
      event.preventDefault();
      if (!files && event.dataTransfer !== null) event.dataTransfer.dropEffect = "none";
    };
    const onLeave = (event: DragEvent) => {
      if (event.relatedTarget === null) setOver(false);
    };
    const onDrop = (event: DragEvent) => {
      setOver(false);
      const files = [...(event.dataTransfer?.files ?? [])];
      if (!carriesFiles(event) && takesText(event)) return;
      event.preventDefault();
      if (files.length > 0) onFiles(files);
    };
    window.addEventListener("dragover", onOver);
    window.addEventListener("dragleave", onLeave);
    window.addEventListener("drop", onDrop);
    return () => {
      window.removeEventListener("dragover", onOver);
      window.removeEventListener("dragleave", onLeave);
      window.removeEventListener("drop", onDrop);
    };
  }, [onFiles]);
  return over;
}
