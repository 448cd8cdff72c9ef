import { dietSodium } from "../../../lib/measures/diet-sodium"
import { toldInterval, type DietFigure } from "../../../lib/figures/diet-figure"
import { sodiumAnswer } from "../../../lib/figures/sodium-answer"
import { counted, milligramInterval, milligrams, month } from "../../../lib/speech/format"
import sentence from "../../_ui/sentence.module.css"
import { DietChart } from "../diet-chart"
import styles from "./sodium.module.css"

/** Whether sodium is falling, in one sentence; then the plain mean, which also moves with who was asked, month by month. */
export function SodiumAnswer({ figure }: { figure: DietFigure }) {
  const { now } = figure.headline
  const mean = now.meanMg === null ? "no record" : meanWords(figure)
  return (
    <section className={styles.answer} aria-label="Is sodium falling?">
      <h2 className={sentence.head}>{sodiumAnswer(figure)}</h2>
      <p className="soft">
        Everyone with {dietSodium.headlineSeries} in {month(now.asOf)}: {mean}. That mean also moves with who
        was asked; the sentence above does not.
      </p>
      <DietChart series={figure.headline} chosen={figure.chosen} size="full" />
    </section>
  )
}

function meanWords({ headline: { now } }: DietFigure): string {
  const interval = toldInterval(now)
  const people = counted(now.n, "person", "people")
  return `${milligrams(now.meanMg ?? 0)}${interval ? ` (${milligramInterval(interval)})` : ""} on average, ${people}`
}
