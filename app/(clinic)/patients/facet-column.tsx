import { count, dayInFull } from "../../../lib/speech/format"
import { MonthList, type MonthChoice } from "../../_ui/month-list"
import { AsidePart, ScreenTitle } from "../../_ui/screen"
import { themes } from "../../../lib/measures/themes"
import type { MeasureColumn } from "./columns"
import { facetSpeech, type Facet } from "./facets"
import styles from "./facet-column.module.css"
import { StageGrid } from "./stage-grid"
import { toggled, type FacetName, type PatientsView } from "./search-params"

type FacetColumnProps = {
  view: PatientsView
  facets: readonly Facet[]
  counts: ReadonlyMap<string, Uint32Array>
  measures: readonly MeasureColumn[]
  go: (view: PatientsView) => void
  isNarrow: boolean
  shown: number
  total: number
  asOf: string
  month: string
  months: MonthChoice[]
}

const openAtFirst: readonly FacetName[] = ["pressure"]
const folded: readonly FacetName[] = [
  ...(["caution", "missing", "kidney", "risk", "category", "clinician", "site", "age", "sex"] as const),
]

/** Who is shown of how many, on which day, and every way to narrow it, with the counts that each part would show. */
export function FacetColumn(props: FacetColumnProps) {
  const { shown, total } = props
  const facets = <Facets {...props} />
  return (
    <>
      <ScreenTitle title="Patients">
        {shown === total ? `${count(total)} in the panel` : `${count(shown)} of ${count(total)} shown`}, as of{" "}
        {dayInFull(props.asOf)}.
      </ScreenTitle>
      <details className={styles.months}>
        <summary>Another month</summary>
        <MonthList choices={props.months} chosen={props.month} />
      </details>
      {props.isNarrow ? (
        <details className={styles.all}>
          <summary>Narrow the list</summary>
          {facets}
        </details>
      ) : (
        <AsidePart>{facets}</AsidePart>
      )}
    </>
  )
}

function Facets(props: FacetColumnProps) {
  const { view, facets, counts, go, measures } = props
  const of = (name: FacetName) => facets.find((facet) => facet.name === name)
  const part = (name: FacetName) => {
    const facet = of(name)
    const measure = name === "standing" ? measures.find((one) => one.id === view.measure) : undefined
    const words = measure?.words ?? facetSpeech[name].words
    return facet ? <FacetParts {...{ facet, words, view, go }} counts={counts.get(name)} /> : null
  }
  const standing = of("standing")
  return (
    <div className={styles.facets}>
      {openAtFirst.map((name) => (
        <section key={name}>
          <h2>{facetSpeech[name].title}</h2>
          {part(name)}
        </section>
      ))}
      <section>
        <h2>Stage</h2>
        <StageGrid {...{ view, facets, counts, go }} />
      </section>
      {(["ras", "classes"] as const).map((name) => (
        <section key={name}>
          <h2>{facetSpeech[name].title}</h2>
          {part(name)}
        </section>
      ))}
      <details open={view.measure !== null}>
        <summary>Measure</summary>
        <select
          aria-label="Measure"
          value={view.measure ?? ""}
          onChange={(event) => go({ ...view, measure: event.target.value || null, standing: [] })}
        >
          <option value="">no measure</option>
          {themes.map((theme) => (
            <optgroup key={theme.id} label={theme.title}>
              {measures
                .filter((measure) => measure.theme === theme.id)
                .map((measure) => (
                  <option key={measure.id} value={measure.id}>
                    {measure.name}
                  </option>
                ))}
            </optgroup>
          ))}
        </select>
        {standing ? part("standing") : null}
      </details>
      {folded.map((name) => (
        <details key={name} open={view[name].length > 0}>
          <summary>{facetSpeech[name].title}</summary>
          {part(name)}
        </details>
      ))}
    </div>
  )
}

/** The parts of one facet, each with its count; a second press lets go. */
function FacetParts(props: {
  facet: Facet
  words: Readonly<Record<string, string>>
  counts: Uint32Array | undefined
  view: PatientsView
  go: (view: PatientsView) => void
}) {
  const { facet, words, counts, view, go } = props
  return (
    <ul className={styles.parts}>
      {facet.words.map((word, place) => {
        const number = counts?.[place] ?? 0
        const isChosen = view[facet.name].includes(word)
        if (number === 0 && !isChosen && facet.name === "standing") return null
        return (
          <li key={word}>
            <button
              type="button"
              aria-pressed={isChosen}
              data-empty={number === 0}
              onClick={() => go(toggled(view, facet.name, word))}
            >
              <span>{words[word] ?? word}</span>
              <span>{count(number)}</span>
            </button>
          </li>
        )
      })}
    </ul>
  )
}
