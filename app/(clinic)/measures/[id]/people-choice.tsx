import Link from "next/link"
import { count, numbered, sentenceCase } from "../../../../lib/speech/format"
import { LetGo } from "../../../_ui/let-go"
import { PeopleLink } from "../../../_ui/people-link"
import { withSettings } from "../../../../lib/domain/setting-words"
import type { WordedMeasure } from "../../../../lib/measures/types"
import { groupName, groupTitle } from "../../../../lib/figures/group-words"
import { groupKinds, type GroupKind } from "../../../../lib/questions/measure-groups"
import { details } from "../../../../lib/questions/measure-details"
import { causeWords, sinceMonth } from "../../../../lib/speech/change-words"
import { measureWords, standingWords } from "../../../../lib/speech/measure-words"
import type { ChosenMonth } from "../../months"
import { measureHref, standingParam, type ListedStanding, type MeasureView } from "../search-params"
import { shownStanding, type MeasureAnswers } from "./measure-answers"
import styles from "./people-list.module.css"

const order: readonly ListedStanding[] = ["counted", "met", "not met", "unknown", "exception", "excluded"]

/** More parts than these stand as a list. */
const mostInLine = 5

/** Which of the measure's people are listed: a standing or a change, the parts of it, and what narrows it. */
export function PeopleChoice(props: {
  measure: WordedMeasure
  answers: MeasureAnswers
  chosen: ChosenMonth
  view: MeasureView
}) {
  const { measure, answers, chosen, view } = props
  const { counts } = answers.figure
  const shown = shownStanding(measure, view)
  const number: Partial<Record<ListedStanding, number>> = {
    ...counts,
    "not met": counts.notMet,
    counted: answers.figure.rate.total,
  }
  const tabs = order.filter((standing) => standing === shown || (number[standing] ?? 0) > 0)
  return (
    <div>
      <nav className={styles.tabs} aria-label="Standings">
        {tabs.map((standing) => (
          <Link
            key={standing}
            href={measureHref(measure.id, { month: view.month, standing: standingParam(standing) }, "people")}
            prefetch={false}
            scroll={false}
            aria-current={standing === shown ? "true" : undefined}
          >
            {count(number[standing] ?? 0)}{" "}
            {standing === "counted" ? "counted" : standingWords(measure, standing)}
          </Link>
        ))}
      </nav>
      <Parts {...props} shown={shown} />
      <Chosen measure={measure} answers={answers} chosen={chosen} view={view} />
    </div>
  )
}

/** What the listed standing is made of: what could be done next, or the reason shown first. */
function Parts(props: {
  measure: WordedMeasure
  answers: MeasureAnswers
  chosen: ChosenMonth
  view: MeasureView
  shown: ListedStanding | null
}) {
  const { measure, answers, chosen, view, shown } = props
  if (shown === null) return null
  const standing = standingParam(shown)
  const known = details.filter(
    (detail) =>
      detail.measureId === measure.id && detail.standing === shown && (chosen.isRunning || !detail.isAhead),
  )
  const parts = [
    ...known.map((detail) => ({
      words: withSettings(detail.words, measure.set),
      people: answers.details.find((row) => row.detail === detail.id)?.people ?? 0,
      href: measureHref(measure.id, { month: view.month, standing, detail: detail.id }, "people"),
    })),
    ...answers.reasons
      .filter((reason) => reason.standing === shown)
      .map(({ reason, people }) => ({
        words: reason,
        people,
        href: measureHref(measure.id, { month: view.month, standing, reason }, "people"),
      })),
  ].filter((part) => part.people > 0)
  if (parts.length === 0) return null
  if (parts.length > mostInLine) {
    return (
      <ul className={styles.partList} aria-label="Of these">
        {parts.map((part) => (
          <li key={part.words}>
            <PeopleLink href={part.href} number={part.people}>
              {numbered(part.people, part.words)}
            </PeopleLink>
          </li>
        ))}
      </ul>
    )
  }
  return (
    <p className={styles.parts}>
      Of these:{" "}
      {parts.map((part, place) => (
        <span key={part.words}>
          {place === 0 ? "" : ", "}
          <PeopleLink href={part.href} number={part.people}>
            {numbered(part.people, part.words)}
          </PeopleLink>
        </span>
      ))}
      .
    </p>
  )
}

/** What narrows the list, each a press away from letting go. */
function Chosen(props: {
  measure: WordedMeasure
  answers: MeasureAnswers
  chosen: ChosenMonth
  view: MeasureView
}) {
  const { measure, view } = props
  const without = (part: Partial<MeasureView>) =>
    measureHref(measure.id, { ...view, page: null, ...part }, "people")
  const chips = [
    ...(view.change === null
      ? []
      : [{ words: changeWords(props), href: without({ change: null, cause: null }) }]),
    ...(view.change === null || view.cause === null
      ? []
      : [{ words: causeWords(view.change, view.cause), href: without({ cause: null }) }]),
    ...(view.detail === null
      ? []
      : [{ words: detailWords(measure, view.detail), href: without({ detail: null }) }]),
    ...(view.reason === null ? [] : [{ words: view.reason, href: without({ reason: null }) }]),
    ...groupChips(props).map(({ kind, words }) => ({ words, href: without({ [kind]: null }) })),
  ]
  if (chips.length === 0) return null
  return (
    <ul className={styles.chosen} aria-label="Narrowed to">
      {chips.map((chip) => (
        <li key={chip.words}>
          <LetGo href={chip.href} isKeptInPlace>
            {sentenceCase(chip.words)}
          </LetGo>
        </li>
      ))}
    </ul>
  )
}

function groupChips({ answers, view }: { answers: MeasureAnswers; view: MeasureView }) {
  return groupKinds.flatMap((kind) => {
    const key = view[kind]
    if (key === null) return []
    const group = answers.groups.find((one) => one.kind === kind && (one.key ?? "") === key)
    const name = groupName(kind, group?.name ?? (key === "" ? null : key))
    return [{ kind, words: isNamedAlone(kind) && group?.name ? name : `${groupTitle(kind)}: ${name}` }]
  })
}

/** Whose groups are plain without their kind: a person, a place. */
function isNamedAlone(kind: GroupKind): boolean {
  return kind === "clinician" || kind === "site"
}

function changeWords({
  measure,
  chosen,
  view,
}: {
  measure: WordedMeasure
  chosen: ChosenMonth
  view: MeasureView
}) {
  const speech = measureWords(measure)
  const since = chosen.earlierAsOf === null ? "" : ` since ${sinceMonth(chosen.earlierAsOf, chosen.asOf)}`
  switch (view.change) {
    case "gained":
      return speech.gained + since
    case "lost":
      return speech.lost + since
    case "joined":
      return `joined the count${since}`
    case "left":
      return `left the count${since}`
    case null:
      return ""
  }
}

function detailWords(measure: WordedMeasure, id: string): string {
  const known = details.find((detail) => detail.measureId === measure.id && detail.id === id)
  return known ? withSettings(known.words, measure.set) : id
}
