import { Button } from "../../_ui/button"
import styles from "./outreach-filters.module.css"

const keys = [
  ["J or ↓", "the next person"],
  ["K or ↑", "the person before"],
  ["Enter", "opens the person"],
  ["L", "records an attempt"],
  ["S", "snoozes"],
  ["T", "takes the next one nobody has"],
  ["?", "shows these keys"],
] as const

/** Every key of the list. A popover of the browser's own: it opens without scripts, and Escape closes it. */
export function KeysHelp() {
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
          {keys.map(([key, words]) => (
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
