import {
  startingFindings,
  startingGroups,
  type StartingGroupId,
} from "../../../lib/questions/starting-and-stopping-groups"
import { counted, dayInFull, sentenceCase } from "../../../lib/speech/format"
import { Pager } from "../../_ui/pager"
import { Theme } from "../../_ui/screen"
import type { ChosenMonth } from "../months"
import { Narrowed, PeopleList } from "../people-list"
import styles from "../people-list.module.css"
import { PersonRow } from "./person-row"
import { startingHref, type StartingView } from "./search-params"
import { drugFactsOf, pageSize, type StartingAnswers } from "./starting-answers"

type ListProps = {
  answers: StartingAnswers
  view: StartingView
  chosen: ChosenMonth
}

const heads = ["Person", "Pressure", "Drugs", "Look at", "Heart, kidneys, visit"] as const

const orders: Readonly<Record<StartingGroupId, string>> = {
  "above-target":
    "Severe pressure first, then the furthest above the target of where it was taken, by systolic or diastolic, whichever is further.",
  "lifestyle-first":
    "Whoever is nearest to the target first; below 120/80, or its equivalent where it was taken, nobody is listed.",
  low: "Falls or dizziness on record first, then the lowest systolic.",
  stopped:
    "A beta blocker or clonidine-like drug without a taper and without a reading in 14 days first, then those not measured since, the longest ago first.",
}

/** The people of the chosen list, most pressing first, a page at a time, with the words for the order. */
export function StartingList(props: ListProps) {
  const { answers, view } = props
  const group = startingGroups.find(({ id }) => id === view.group)
  return (
    <Theme title={sentenceCase(group?.words ?? "")} id="people">
      <NarrowedTo view={view} />
      {answers.people.length === 0 ? (
        <p className={styles.none}>{nobodyWords(props)}</p>
      ) : (
        <Rows {...props} />
      )}
    </Theme>
  )
}

function Rows({ answers, view, chosen }: ListProps) {
  const total = answers.people[0]?.total ?? 0
  return (
    <>
      <p className={styles.order}>
        {counted(total, "person", "people")}. {orders[view.group]}
        {isOnDrugs(view.group) ? " In brackets after a dose: the usual maximum a day." : ""}
        {chosen.isClosed
          ? " This month is closed: pressures stand as known then, drugs, stops and falls as on record today."
          : ""}
      </p>
      <PeopleList caption="People of this list, most pressing first" heads={heads}>
        {answers.people.map((person) => (
          <PersonRow
            key={person.public_id}
            {...{ person, chosen, group: view.group }}
            facts={drugFactsOf(answers, person.public_id)}
          />
        ))}
      </PeopleList>
      <div className={styles.foot}>
        <Pager
          page={view.page}
          size={pageSize}
          total={total}
          hrefOf={(page) => startingHref({ ...view, page })}
        />
      </div>
    </>
  )
}

/** Whether those on the list take pressure drugs. */
function isOnDrugs(group: StartingGroupId): boolean {
  return group === "low" || group === "stopped"
}

function NarrowedTo({ view }: { view: StartingView }) {
  const finding = startingFindings.find((one) => one.group === view.group && one.id === view.finding)
  if (!finding) return null
  return (
    <Narrowed href={startingHref({ month: view.month, group: view.group })}>
      {sentenceCase(finding.words)}
    </Narrowed>
  )
}

function nobodyWords({ view, chosen }: ListProps): string {
  if (view.page !== null) return "The list is not that long."
  if (view.finding !== null) return `No one is found with this on ${dayInFull(chosen.asOf)}.`
  return `No one whom you may see is on this list on ${dayInFull(chosen.asOf)}.`
}
