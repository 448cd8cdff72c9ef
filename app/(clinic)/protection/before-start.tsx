import type { RasStatement } from "../../../lib/questions/ras-considerations"
import { Caution } from "../../_ui/notice"
import { Theme } from "../../_ui/screen"
import styles from "../people-list.module.css"
import { sourceWords } from "./row-words"

/** What may hurt if the list is taken for more than it is, and who decides. */
export function BeforeStart() {
  return (
    <div className={styles.before}>
      <Caution>
        <p>
          A list to look through, no list of orders: what is not on record is not known here, such as narrowed
          kidney arteries or a plan made elsewhere. Clinicians decide; local policy applies.
        </p>
      </Caution>
    </div>
  )
}

/** What published guidance says of every start, each with where it is from and what of it was read. */
export function Statements({ statements }: { statements: readonly RasStatement[] }) {
  return (
    <Theme title="What published guidance says of every start" id="statements">
      <ul className={styles.findings}>
        {statements.map((one) => (
          <li key={one.statement}>
            {one.statement} <span className={styles.soft}>{sourceWords(one)}</span>
          </li>
        ))}
      </ul>
      <p className={styles.source}>
        In our own words. KDIGO 2021: guideline on blood pressure, Kidney Int 99(3S):S1-S87, chapter 3; KDIGO
        2024: CKD guideline, Kidney Int 105(4S):S117-S314; NICE NG203: chronic kidney disease, 2021.
        “Secondary” was read in a text about the source, “from memory” not at all; what is not marked was
        read.
      </p>
    </Theme>
  )
}
