import Link from "next/link"
import { decisionTopicWords } from "../../../lib/speech/decision-words"
import { count, day, sentenceCase } from "../../../lib/speech/format"
import { Theme } from "../../_ui/screen"
import { UndoForm } from "../decisions/undo-form"
import styles from "./imports.module.css"
import { PlainTable } from "./plain-table"
import type { WrongDataAnswers } from "./wrong-data-answers"

/** What clinicians said is wrong in the data of a person, until somebody says it is put right. */
export function WrongData({ wrong }: { wrong: WrongDataAnswers }) {
  const { total, found } = wrong
  return (
    <Theme title="Wrong data" id="wrong" note={count(total)}>
      <p className={styles.lead}>
        What clinicians said is wrong on record. It is put right where the extract comes from. Once it is
        settled here, the remark stays in the person’s history.
      </p>
      {total === 0 ? <p className="soft">None is said to be wrong.</p> : null}
      {total > 0 && found.length === 0 ? (
        <p className="soft">They speak of people; the clinic lead can read them.</p>
      ) : null}
      {found.length === 0 ? null : (
        <PlainTable
          caption="Data said to be wrong"
          columns={[
            { head: "Person" },
            { head: "About" },
            { head: "What is wrong", isLong: true },
            { head: "Said by" },
            { head: "Settle", label: "" },
          ]}
          rows={found.map((one) => ({
            key: String(one.id),
            cells: [
              <Link key="person" href={`/patients/${one.publicId}`} prefetch={false}>
                {one.name ?? "The person"}
              </Link>,
              decisionTopicWords[one.topic],
              saidWords(one),
              `${one.madeBy}, ${day(one.madeOn)}`,
              one.maySettle ? (
                <UndoForm
                  key="settle"
                  publicId={one.publicId}
                  id={one.id}
                  verb="Settled"
                  about={`${decisionTopicWords[one.topic]} of ${one.name ?? "the person"}`}
                />
              ) : null,
            ],
          }))}
        />
      )}
      {found.length > 0 && total > found.length ? (
        <p className={styles.more}>and {count(total - found.length)} more.</p>
      ) : null}
    </Theme>
  )
}

function saidWords({ reason, note }: WrongDataAnswers["found"][number]): string {
  const said = reason === "other" ? "" : sentenceCase(reason)
  if (note === null) return said
  return said === "" ? `“${note}”` : `${said}: “${note}”`
}
