import { count } from "../../../lib/speech/format"
import { aWords, cellWord, gWords, unknownWord, type Facet } from "./facets"
import styles from "./stage-grid.module.css"
import { toggled, type FacetName, type PatientsView } from "./search-params"

const rows = [...gWords, unknownWord]
const columns = [...aWords, unknownWord]

/** The panel by eGFR and urine category as a grid of counts: a head takes its whole row or column, a cell itself. */
export function StageGrid(props: {
  view: PatientsView
  facets: readonly Facet[]
  counts: ReadonlyMap<string, Uint32Array>
  go: (view: PatientsView) => void
}) {
  const { view, facets, counts, go } = props
  const cells = facets.find((facet) => facet.name === "cell")
  const number = (word: string) => counts.get("cell")?.[cells?.words.indexOf(word) ?? -1] ?? 0
  const toggle = (name: FacetName, word: string) => ({
    "aria-pressed": view[name].includes(word),
    onClick: () => go(toggled(view, name, word)),
  })
  return (
    <table className={styles.grid}>
      <caption className="visually-hidden">People by eGFR category and urine category</caption>
      <thead>
        <tr>
          <td />
          {columns.map((a) => (
            <th key={a} scope="col">
              <button
                type="button"
                {...toggle("a", a)}
                aria-label={a === unknownWord ? "none: no urine result" : a}
              >
                {a === unknownWord ? "none" : a}
              </button>
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((g) => (
          <tr key={g}>
            <th scope="row">
              <button type="button" {...toggle("g", g)} aria-label={g === unknownWord ? "none: no eGFR" : g}>
                {g === unknownWord ? "none" : g}
              </button>
            </th>
            {columns.map((a) => {
              const people = number(cellWord(g, a))
              return (
                <td key={a}>
                  <button
                    type="button"
                    {...toggle("cell", cellWord(g, a))}
                    data-empty={people === 0}
                    aria-label={`${g} ${a}: ${count(people)}`}
                  >
                    {count(people)}
                  </button>
                </td>
              )
            })}
          </tr>
        ))}
      </tbody>
    </table>
  )
}
