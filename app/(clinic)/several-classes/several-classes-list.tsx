import { severalClassesFindings } from "../../../lib/questions/several-classes-findings"
import { counted, dayInFull, sentenceCase } from "../../../lib/speech/format"
import { Pager } from "../../_ui/pager"
import type { ChosenMonth } from "../months"
import { Narrowed, PeopleList } from "../people-list"
import styles from "../people-list.module.css"
import { PersonRow } from "./person-row"
import { severalClassesHref, type SeveralClassesView } from "./search-params"
import { pageSize, type SeveralClassesAnswers } from "./several-classes-answers"

type ListProps = {
  answers: SeveralClassesAnswers
  view: SeveralClassesView
  chosen: ChosenMonth
}

const heads = ["Person", "Pressure", "Classes and drugs", "Look at first", "Blood tests, visit"] as const

/** The people, most pressing first, a page at a time, with the words for the order. */
export function SeveralClassesList(props: ListProps) {
  const { answers, view, chosen } = props
  const { people } = answers
  const total = people[0]?.total ?? 0
  if (people.length === 0) return <Nobody {...props} />
  return (
    <>
      <NarrowedTo view={view} />
      <p className={styles.order}>
        {counted(total, "person", "people")}. Severe pressure first, then the furthest above the target of
        where it was taken, by systolic or diastolic, whichever is further. In brackets after a dose: the
        usual maximum a day.
        {chosen.isClosed
          ? " This month is closed: people stand as known then, drugs and doses as on record today."
          : ""}
      </p>
      <PeopleList caption="People above target on several classes, most pressing first" heads={heads}>
        {people.map((person) => (
          <PersonRow
            key={person.public_id}
            person={person}
            drugs={answers.drugs.filter((drug) => drug.public_id === person.public_id)}
            chosen={chosen}
          />
        ))}
      </PeopleList>
      <div className={styles.foot}>
        <Pager
          page={view.page}
          size={pageSize}
          total={total}
          hrefOf={(page) => severalClassesHref({ ...view, page })}
        />
      </div>
    </>
  )
}

function NarrowedTo({ view }: { view: SeveralClassesView }) {
  const finding = severalClassesFindings.find(({ id }) => id === view.finding)
  if (!finding) return null
  return <Narrowed href={severalClassesHref({ month: view.month })}>{sentenceCase(finding.words)}</Narrowed>
}

function Nobody({ answers, view, chosen }: ListProps) {
  return (
    <>
      <NarrowedTo view={view} />
      <p className={styles.none}>{nobodyWords({ answers, view, chosen })}</p>
    </>
  )
}

function nobodyWords({ answers, view, chosen }: Pick<ListProps, "answers" | "view" | "chosen">): string {
  if (view.page !== null) return "The list is not that long."
  if (answers.counts.people > 0) return `No one is found with this on ${dayInFull(chosen.asOf)}.`
  return `No one whom you may see is above target on several classes on ${dayInFull(chosen.asOf)}.`
}
