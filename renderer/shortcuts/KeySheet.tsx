import { Dialog } from "../look/Dialog.tsx";
import { keyText, useKeyGroups } from "../look/keys.ts";
import { shortcuts as words } from "../words/shortcuts.ts";
import "./shortcuts.css";

/** Every key that is heard on the screen that is open. */
export function KeySheet({ onClose }: { readonly onClose: () => void }) {
  const groups = useKeyGroups().filter((group) => group.bindings.length > 0);
  return (
    <Dialog wide title={words.title} onClose={onClose}>
      <div className="key-groups">
        {groups.map((group) => (
          <section key={group.title} className="stack">
            <h3>{group.title}</h3>
            <dl>
              {group.bindings.map((binding) => (
                <div key={binding.keys}>
                  <dt>
                    <kbd className="keycap">{keyText(binding.keys)}</kbd>
                  </dt>
                  <dd>{binding.words}</dd>
                </div>
              ))}
            </dl>
          </section>
        ))}
      </div>
    </Dialog>
  );
}
