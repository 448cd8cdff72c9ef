import Link from "next/link"
import { count } from "../../../lib/speech/format"
import { Theme } from "../../_ui/screen"
import { discardHeld } from "./actions"
import type { ImportAnswers } from "./import-answers"
import { instantInFull } from "./import-words"
import styles from "./imports.module.css"
import { PlainTable } from "./plain-table"
import { rowsOfPeople } from "./rejected-rows"
import { sourceRowHref } from "./search-params"

/** Good rows that name a patient nobody knows; every import tries them again. */
export function HeldRows(props: {
  held: ImportAnswers["held"]
  timeZone: string
  /** Whether the person may read rows as the extract had them; if not, only how many there are. */
  mayReadRows: boolean
}) {
  const { held, timeZone } = props
  const facts = props.mayReadRows ? (held?.facts ?? []) : []
  return (
    <Theme title="Rows held" id="held" note={held ? count(held.total) : undefined}>
      <p className={styles.lead}>
        Good rows that name a patient no patients.csv has brought. Every import tries them again; a row that
        is of no use can be discarded.
      </p>
      {held === null ? <p role="status">An import is writing; the list is back in a moment.</p> : null}
      {held?.total === 0 ? <p className="soft">None is held.</p> : null}
      {held && held.total > 0 && !props.mayReadRows ? <p className="soft">{rowsOfPeople}</p> : null}
      {facts.length > 0 ? (
        <PlainTable
          caption="Rows held"
          columns={[
            { head: "Row" },
            { head: "Patient number" },
            { head: "Since" },
            { head: "Decision", label: "" },
          ]}
          rows={facts.map((fact) => ({
            key: `${fact.kind} ${fact.importId} ${fact.line}`,
            cells: [
              <Link key="row" href={sourceRowHref(fact)} prefetch={false}>
                {fact.kind}.csv line {fact.line}, import {fact.importId}
              </Link>,
              fact.patientId,
              instantInFull(fact.knownAt, timeZone),
              <form key="discard" action={discardHeld}>
                <input type="hidden" name="kind" value={fact.kind} />
                <input type="hidden" name="importId" value={fact.importId} />
                <input type="hidden" name="line" value={fact.line} />
                <button type="submit" className={styles.small}>
                  Discard
                </button>
              </form>,
            ],
          }))}
        />
      ) : null}
      {held && facts.length > 0 && held.total > facts.length ? (
        <p className={styles.more}>and {count(held.total - facts.length)} more.</p>
      ) : null}
    </Theme>
  )
}
