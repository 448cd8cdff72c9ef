import Link from "next/link"
import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import { severalClassesFindings } from "../../../lib/questions/several-classes-findings"
import { counted, dayInFull, sentenceCase } from "../../../lib/speech/format"
import { Pager } from "../../_ui/pager"
import type { ChosenMonth } from "../months"
import { PersonRow } from "./person-row"
import { severalClassesHref, type SeveralClassesView } from "./search-params"
import { pageSize, type SeveralClassesAnswers } from "./several-classes-answers"
import styles from "./several-classes.module.css"

type ListProps = {
  answers: SeveralClassesAnswers
  view: SeveralClassesView
  chosen: ChosenMonth
  snapshot: SnapshotMeta
}

const heads = ["Person", "Pressure", "Classes and drugs", "Look at first", "Blood tests, visit"] as const

/** The people, most pressing first, a page at a time, with the words for the order. */
export function SeveralClassesList(props: ListProps) {
  const { answers, view, chosen, snapshot } = props
  const { people } = answers
  const total = people[0]?.total ?? 0
  const page = view.page ?? 1
  const isClosed = snapshot.closed.some((one) => one.asOf === chosen.asOf)
  if (people.length === 0) return <Nobody {...props} />
  return (
    <>
      <Narrowed view={view} />
      <p className={styles.order}>
        {counted(total, "person", "people")}. Severe pressure first, then the furthest above the target of
        where it was taken, by systolic or diastolic, whichever is further. In brackets after a dose: the
        usual maximum a day.
        {isClosed
          ? " This month is closed: people stand as known then, drugs and doses as on record today."
          : ""}
      </p>
      <table className={styles.table} role="table">
        <caption className="visually-hidden">
          People above target on several classes, most pressing first
        </caption>
        <thead role="rowgroup">
          <tr role="row">
            {heads.map((head) => (
              <th key={head} scope="col" role="columnheader">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody role="rowgroup">
          {people.map((person) => (
            <PersonRow
              key={person.public_id}
              person={person}
              drugs={answers.drugs.filter((drug) => drug.public_id === person.public_id)}
              chosen={chosen}
            />
          ))}
        </tbody>
      </table>
      <div className={styles.foot}>
        <Pager
          page={page}
          size={pageSize}
          total={total}
          hrefOf={(other) => severalClassesHref({ ...view, page: other === 1 ? null : other })}
        />
      </div>
    </>
  )
}

function Narrowed({ view }: { view: SeveralClassesView }) {
  const finding = severalClassesFindings.find(({ id }) => id === view.finding)
  if (!finding) return null
  return (
    <p className={styles.narrowed}>
      <Link href={severalClassesHref({ month: view.month })} prefetch={false}>
        {sentenceCase(finding.words)} <span aria-hidden="true">×</span>
        <span className="visually-hidden">, let go</span>
      </Link>
    </p>
  )
}

function Nobody({ answers, view, chosen }: ListProps) {
  return (
    <>
      <Narrowed view={view} />
      <p className={styles.none}>{nobodyWords({ answers, view, chosen })}</p>
    </>
  )
}

function nobodyWords({ answers, view, chosen }: Pick<ListProps, "answers" | "view" | "chosen">): string {
  if (view.page !== null) return "The list is not that long."
  if (answers.counts.people > 0) return `No one is found with this on ${dayInFull(chosen.asOf)}.`
  return `No one whom you may see is above target on several classes on ${dayInFull(chosen.asOf)}.`
}
