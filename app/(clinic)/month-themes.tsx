import { count, numbered } from "../_ui/format"
import { PeopleLink } from "../_ui/people-link"
import { Theme } from "../_ui/screen"
import { withSettings } from "../../lib/domain/setting-words"
import { details } from "../../lib/questions/measure-details"
import { dietFigure } from "./diet-figure"
import { DietRow } from "./diet-row"
import type { MeasureFigure } from "./measure-figure"
import { MeasureRow } from "./measure-row"
import { measureHref, standingParam } from "./measures/search-params"
import type { MonthAnswers } from "./month-answers"
import type { ChosenMonth } from "./months"
import styles from "./measure-row.module.css"

/** The themes of the Month screen, each with its measures; those in short form stand under the ones in full. */
const themes = [
  {
    id: "pressure",
    title: "Pressure",
    full: ["bp-at-target", "uncontrolled-on-several-classes"],
    short: ["bp-under-140-90", "pressure-measured"],
  },
  { id: "protection", title: "Protein and protection", full: ["ras-blocker-in-albuminuria"], short: [] },
  { id: "monitoring", title: "Monitoring", full: ["acr-tested"], short: [] },
] as const

export function MonthThemes({ chosen, answers }: { chosen: ChosenMonth; answers: MonthAnswers }) {
  const rows = (ids: readonly string[], size: "full" | "short") =>
    ids.flatMap((id) => {
      const figure = answers.figures.get(id)
      if (!figure) return []
      return [
        <MeasureRow key={id} figure={figure} month={chosen.param} size={size}>
          <DetailWords figure={figure} chosen={chosen} answers={answers} />
        </MeasureRow>,
      ]
    })
  return (
    <>
      {themes.map((theme) => (
        <Theme key={theme.id} id={theme.id} title={theme.title}>
          {rows(theme.full, "full")}
          {rows(theme.short, "short")}
        </Theme>
      ))}
      <Theme id="diet" title="Diet">
        <DietRow figure={dietFigure(answers.diet, answers.asOfs, chosen.asOf)} month={chosen.param} />
      </Theme>
      <p className={`soft fine ${styles.reading}`}>
        Shaded: 95% interval. Dotted: median of the first year. Neighbouring months share most of their
        people, so a run of months on one side of the dotted line is no signal by itself.
      </p>
    </>
  )
}

/** What could be done next for those who want attention: parts of the list, each opening its people. */
function DetailWords(props: { figure: MeasureFigure; chosen: ChosenMonth; answers: MonthAnswers }) {
  const { figure, chosen, answers } = props
  const parts = details
    .filter((detail) => detail.measureId === figure.measure.id && (chosen.isRunning || !detail.isAhead))
    .map((detail) => ({
      detail,
      people:
        answers.details.find((row) => row.measure_id === detail.measureId && row.detail === detail.id)
          ?.people ?? 0,
    }))
    .filter((part) => part.people > 0)
  const [first] = parts
  if (!first) return null
  const total = first.detail.standing === "met" ? figure.counts.met : figure.counts.notMet
  return (
    <p>
      Of the {count(total)}:{" "}
      {parts.map(({ detail, people }, place) => (
        <span key={detail.id}>
          {place === 0 ? "" : ", "}
          <PeopleLink
            number={people}
            href={measureHref(
              figure.measure.id,
              { month: chosen.param, standing: standingParam(detail.standing), detail: detail.id },
              "people",
            )}
          >
            {numbered(people, withSettings(detail.words, figure.measure.set))}
          </PeopleLink>
        </span>
      ))}
      .
    </p>
  )
}
