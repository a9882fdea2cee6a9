import type { TrustFailures } from "../../../../main/contract/notices/trust.ts";
import type { FailureWords } from "../tables.ts";

export const trustFailures: FailureWords<TrustFailures> = {
  "folder-with-links": ({ folder, links, more }) => [
    `In ${folder} liegen Verknüpfungen, die hinausführen können: ${links.join(", ")}` +
      `${more > 0 ? ` und ${more} weitere` : ""}. Nichts wurde geöffnet oder geschrieben.`,
    "Die Verknüpfungen löschen oder durch die Dateien ersetzen, auf die sie zeigen.",
  ],
  "folder-replaced": ({ folder }, door) => [
    `${folder} ist nicht mehr der Ordner, der geöffnet wurde: Er wurde ersetzt oder verschoben, oder sein Laufwerk ist weg. ` +
      `Dort wurde nichts geschrieben.`,
    door === "command"
      ? "Den Ordner zurückstellen oder das Laufwerk wieder anschließen, dann den Befehl wiederholen."
      : "Den Ordner zurückstellen oder das Laufwerk wieder anschließen: Es wird von selbst wieder gespeichert. " +
        "Oder die Nachbesprechung dort öffnen, wo sie jetzt liegt.",
  ],
  "debrief-open-elsewhere": ({ folder, pid, host }, door) => [
    `Die Nachbesprechung in ${folder} ist in einem anderen Fenster offen (Prozess ${pid} auf ${host}): Es wurde nichts hineingeschrieben.`,
    door === "command" ? "Dort schließen, dann den Befehl wiederholen." : "Dort schließen, dann noch einmal versuchen.",
  ],
  "debrief-not-saved": ({ folder, keptAt, diskFull }) => [
    `Die letzten Änderungen konnten in ${folder} nicht gespeichert werden${diskFull ? ", weil kein Platz mehr ist" : ""}.` +
      `${keptAt === null ? "" : ` Sie stehen in ${keptAt}.`}`,
    keptAt === null
      ? `${diskFull ? "Platz schaffen" : "Prüfen, ob der Ordner beschrieben werden darf"}: Es wird von selbst wieder versucht.`
      : `${diskFull ? "Platz schaffen" : "Prüfen, ob der Ordner beschrieben werden darf"}: Es wird von selbst wieder versucht. ` +
        `Oder noch einmal schließen, um es so zu lassen; die Kopie öffnet sich wie jede Nachbesprechung.`,
  ],
};
