import type { ReactNode } from "react"
import type { ActiveDrug } from "../../lib/questions/active-drugs"
import { counted } from "../../lib/speech/format"
import { drugGroups, drugWords } from "./drug-words"
import styles from "./people-list.module.css"

/** The classes of a person in a list, how many, and under each its drugs with their doses. */
export function PersonDrugs(props: {
  classes: readonly string[]
  drugs: readonly ActiveDrug[]
  /** What is said after the drugs of a class; null is the drugs that count for none. */
  noteOf?: (name: string | null) => ReactNode
}) {
  return (
    <>
      <p>
        <strong>{counted(props.classes.length, "class", "classes")}</strong>
      </p>
      <ul>
        {drugGroups(props.classes, props.drugs).map((group) => (
          <li key={group.name}>
            {group.name}:{" "}
            <span className={styles.soft}>
              {group.drugs.map(drugWords).join("; ") || "drug not on record today"}
            </span>
            {props.noteOf?.(group.class)}
          </li>
        ))}
      </ul>
    </>
  )
}
