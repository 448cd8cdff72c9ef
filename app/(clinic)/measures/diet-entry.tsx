import { counted, listed, milligramInterval, milligrams } from "../../../lib/speech/format"
import { PeopleLink } from "../../_ui/people-link"
import { dietSodium } from "../../../lib/measures/diet-sodium"
import { dietFigure, pairedTitle, toldInterval } from "../../../lib/figures/diet-figure"
import type { MonthAnswers } from "../month-answers"
import type { ChosenMonth } from "../months"
import { Entry } from "./entry"
import { measureHref } from "./search-params"

/** The mean sodium in the catalogue: a mean of the headline series, with the people of every series. */
export function DietEntry({ answers, chosen }: { answers: MonthAnswers; chosen: ChosenMonth }) {
  const { headline, series } = dietFigure(answers.diet, answers.asOfs, chosen.asOf)
  const { now, paired } = headline
  const interval = toldInterval(now)
  const others = series.filter((one) => one !== headline && one.now.n > 0)
  return (
    <Entry
      id={dietSodium.id}
      month={chosen.param}
      name={dietSodium.name}
      question={dietSodium.question}
      figure={
        <>
          <p>
            <strong>{now.meanMg === null ? "no record" : milligrams(now.meanMg)}</strong>
            {now.meanMg === null ? null : " a day"}
          </p>
          {interval ? <p className="soft">95% interval {milligramInterval(interval)}</p> : null}
        </>
      }
      counts={
        <p>
          <PeopleLink href={measureHref(dietSodium.id, { month: chosen.param }, "people")} number={now.n}>
            {counted(now.n, "person", "people")}
          </PeopleLink>{" "}
          by {headline.name}
          {others.length === 0
            ? ""
            : `; kept apart ${listed(others.map((one) => `${one.now.n} by ${one.name}`))}`}
          .
        </p>
      }
      change={paired ? pairedTitle(paired) : "No one with an earlier record"}
      actor={`The ${dietSodium.actor} acts`}
    />
  )
}
