import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import type { OwnChange } from "../../../lib/questions/own-changes"
import { counted, dayInFull, monthName, sentenceCase } from "../../../lib/speech/format"
import { Caution } from "../../_ui/notice"
import { Pager } from "../../_ui/pager"
import { Theme } from "../../_ui/screen"
import type { ChosenMonth } from "../months"
import { Narrowed, PeopleList } from "../people-list"
import list from "../people-list.module.css"
import { ChangedRow } from "./changed-row"
import { groupWords } from "./change-words"
import { pageSize, type MyPatientsAnswers, type Whose } from "./my-patients-answers"
import styles from "./my-patients.module.css"
import { myPatientsHref, type MyPatientsView } from "./search-params"

type ChangesProps = {
  answers: MyPatientsAnswers
  whose: NonNullable<Whose>
  view: MyPatientsView
  chosen: ChosenMonth
  snapshot: SnapshotMeta
}

/** What changed since the month before, person by person, most pressing first, a page at a time. */
export function Changes(props: ChangesProps) {
  const { answers, view, chosen, snapshot } = props
  if (chosen.earlierAsOf === null)
    return (
      <Theme title="What changed" id="changes">
        <p className={list.none}>There is no month before this one to compare with.</p>
      </Theme>
    )
  const publicIds = [...new Set(answers.changes.map((change) => change.public_id))]
  const people = publicIds.map((id) => answers.changes.filter((change) => change.public_id === id))
  const total = answers.changes[0]?.total ?? 0
  return (
    <Theme
      title={`What changed since ${monthName(chosen.earlierAsOf)}`}
      id="changes"
      note={`against ${dayInFull(chosen.earlierAsOf)}`}
    >
      {view.change === null ? null : (
        <Narrowed href={myPatientsHref({ ...view, change: null, page: null })}>
          {sentenceCase(groupWords[view.change])}
        </Narrowed>
      )}
      {people.length === 0 ? (
        <p className={list.none}>{nobodyWords(props)}</p>
      ) : (
        <Listed {...{ people, total, view, chosen, snapshot }} />
      )}
      <div className={list.foot}>
        <Pager
          page={view.page}
          size={pageSize}
          total={total}
          hrefOf={(page) => myPatientsHref({ ...view, page })}
        />
      </div>
      <Caution>
        <p>
          By what is on record alone: what is not in the extract is not told, and a change is no advice.
          Clinicians decide; local policy applies.
        </p>
      </Caution>
    </Theme>
  )
}

function Listed(
  props: Pick<ChangesProps, "view" | "chosen" | "snapshot"> & { people: OwnChange[][]; total: number },
) {
  const { people, total, chosen, snapshot } = props
  return (
    <>
      <p className={list.order}>
        {counted(total, "person", "people")}. First what is urgent, then who is newly found by a safety
        measure, then the number of measures somebody newly wants attention on. ↓&nbsp;newly wants attention,
        ↑ no longer does.
        {chosen.isClosed
          ? " This month is closed: people stand as known then, drugs and decisions as on record today."
          : ""}
      </p>
      <PeopleList
        caption="People for whom something changed, most pressing first"
        heads={heads}
        columns={styles.changed}
      >
        {people.map((changes) => (
          <ChangedRow
            key={changes[0]?.public_id}
            changes={changes}
            chosen={chosen}
            settings={snapshot.settings}
          />
        ))}
      </PeopleList>
    </>
  )
}

const heads = ["Person", "What changed"] as const

function nobodyWords({ answers, view }: ChangesProps): string {
  if (view.page !== null) return "The list is not that long."
  const isAnybody = (answers.changeCounts?.people ?? 0) > 0
  return isAnybody ? "This changed for nobody." : "Nothing of what is looked at changed for anybody."
}
