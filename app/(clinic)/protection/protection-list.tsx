import { protectionGroups } from "../../../lib/questions/protection-groups"
import { countsFromWords } from "../../../lib/speech/decision-words"
import { counted, dayInFull, sentenceCase } from "../../../lib/speech/format"
import { Pager } from "../../_ui/pager"
import type { ChosenMonth } from "../months"
import { KeysHelp, type ListKey } from "../keys-help"
import { ListKeys } from "../list-keys"
import { Narrowed, PeopleList } from "../people-list"
import styles from "../people-list.module.css"
import columns from "./protection.module.css"
import { PersonRow } from "./person-row"
import type { ProtectionDecisions } from "./protection-decisions"
import { pageSize, type ProtectionAnswers, type ProtectionFacts } from "./protection-answers"
import { protectionHref, type ProtectionView } from "./search-params"

type ListProps = {
  answers: ProtectionAnswers
  /** What holds now; null in a month that is over. */
  decisions: ProtectionDecisions | null
  view: ProtectionView
  chosen: ChosenMonth
}

const heads = [
  "Person",
  "Why none, and what is published",
  "Urine and kidneys",
  "Potassium, pressure",
  "Drugs, conditions, reactions",
] as const

const decisionKeys: readonly ListKey[] = [
  ["D", "decides; once it is recorded the next person has the focus"],
  ["U", "takes the decision back"],
]

/** The people, most pressing first, a page at a time, with the words for the order. */
export function ProtectionList(props: ListProps) {
  const { answers, decisions, view, chosen } = props
  const { people } = answers
  if (people.length === 0) return <Nobody {...props} />
  return (
    <>
      <NarrowedTo view={view} />
      <p className={styles.order}>
        {counted(people[0]?.total ?? 0, "person", "people")}. Those without a documented reason first, then
        those raised once, then those with a reason; in each A3 before A2, A2 with diabetes before A2 without,
        and then the higher ACR. The extract does not say who stopped a drug; whoever had the visit of that
        day is named.
        {decisions === null ? null : ` ${countsFromWords(decisions) ?? ""}`}
        {chosen.isClosed
          ? " This month is closed: people stand as known then, urine, drugs and reactions as on record today."
          : ""}
      </p>
      {decisions?.isOpen ? (
        <div className={columns.keys}>
          <KeysHelp keys={decisionKeys} />
        </div>
      ) : null}
      <ListKeys>
        <PeopleList
          caption="People with albuminuria and no ACE inhibitor or ARB, most pressing first"
          heads={heads}
          columns={columns.columns}
        >
          {people.map((person) => (
            <PersonRow
              key={person.public_id}
              person={person}
              facts={ofPerson(answers.facts, person.public_id)}
              decisions={decisions}
              chosen={chosen}
            />
          ))}
        </PeopleList>
      </ListKeys>
      <div className={styles.foot}>
        <Pager
          page={view.page}
          size={pageSize}
          total={people[0]?.total ?? 0}
          hrefOf={(page) => protectionHref({ ...view, page })}
        />
      </div>
    </>
  )
}

function ofPerson(facts: ProtectionFacts, publicId: string): ProtectionFacts {
  const own = <T extends { public_id: string }>(rows: T[]) => rows.filter((row) => row.public_id === publicId)
  return {
    urine: own(facts.urine),
    drugs: own(facts.drugs),
    allergies: own(facts.allergies),
    stops: own(facts.stops),
    reasons: own(facts.reasons),
    considerations: own(facts.considerations),
  }
}

function NarrowedTo({ view }: { view: ProtectionView }) {
  const group = protectionGroups.find(({ id }) => id === view.group)
  if (!group) return null
  return (
    <Narrowed href={protectionHref({ ...view, group: null, page: null })}>
      {sentenceCase(group.words)}
    </Narrowed>
  )
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
  const on = dayInFull(chosen.asOf)
  if (view.page !== null) return "The list is not that long."
  if (answers.counts.people > 0) return `No one is in this group on ${on}.`
  if (answers.panel.isShown)
    return `No one of your patients has albuminuria and no ACE inhibitor or ARB on ${on}.`
  return `No one whom you may see has albuminuria and no ACE inhibitor or ARB on ${on}.`
}
