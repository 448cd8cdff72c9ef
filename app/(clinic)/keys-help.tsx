import { Button } from "../_ui/button"
import styles from "./keys-help.module.css"

/** A key of a list and what it does. */
export type ListKey = readonly [key: string, words: string]

/** The keys that go from row to row. */
const rowKeys: readonly ListKey[] = [
  ["J or ↓", "the next person"],
  ["K or ↑", "the person before"],
  ["Enter", "opens the person"],
]

/** Every key of the list. A popover of the browser's own: it opens without scripts, and Escape closes it. */
export function KeysHelp({ keys }: { keys: readonly ListKey[] }) {
  return (
    <>
      <Button popoverTarget="list-keys">Keys</Button>
      <div
        id="list-keys"
        popover="auto"
        role="dialog"
        aria-labelledby="list-keys-title"
        className={styles.keys}
      >
        <h2 id="list-keys-title">Keys of the list</h2>
        <dl>
          {[...rowKeys, ...keys, ["?", "shows these keys"] as const].map(([key, words]) => (
            <div key={key}>
              <dt>
                <kbd>{key}</kbd>
              </dt>
              <dd>{words}</dd>
            </div>
          ))}
        </dl>
        <p>They work while a row of the list has the focus, and never while something is typed.</p>
        <Button popoverTarget="list-keys" popoverTargetAction="hide">
          Close
        </Button>
      </div>
    </>
  )
}
