import { Button } from "../../_ui/button"
import { count } from "../../../lib/speech/format"
import type { MeasureColumn } from "./columns"
import { ColumnChooser } from "./column-chooser"
import { csvOf, saveFile } from "./csv"
import { chipWords } from "./facets"
import type { PeopleProps } from "./people-props"
import styles from "./toolbar.module.css"
import { facetNames, isFiltered, toggled, unfiltered, type FacetName } from "./search-params"

type ToolbarProps = PeopleProps & {
  measure: MeasureColumn | null
  asOf: string
  isNarrow: boolean
  isListTaken: boolean
}

/** Finding a person, the filters in force, the columns, and the list as a file. */
export function Toolbar(props: ToolbarProps) {
  const { view, go, query, search } = props
  return (
    <div className={styles.toolbar}>
      <input
        type="search"
        className={styles.find}
        aria-label="Find a name or number"
        placeholder="Find a name or number"
        autoComplete="off"
        spellCheck={false}
        value={query}
        onChange={(event) => search(event.target.value)}
      />
      <div className={styles.row}>
        {facetNames.flatMap((name) =>
          view[name].map((word) => (
            <button
              key={`${name} ${word}`}
              type="button"
              className={styles.chip}
              aria-label={`Let go of: ${wordsOf(name, word, props.measure)}`}
              onClick={() => go(toggled(view, name, word))}
            >
              {wordsOf(name, word, props.measure)}
              <span aria-hidden="true"> ×</span>
            </button>
          )),
        )}
        {isFiltered(view) ? <Button onClick={() => go(unfiltered(view))}>Show everyone</Button> : null}
        {props.isNarrow ? <SortChoice {...props} /> : null}
        <ColumnChooser {...props} />
        {props.isListTaken ? (
          <span className={styles.end}>
            <Button disabled={props.rows.length === 0} onClick={() => download(props)}>
              Download {count(props.rows.length)} {props.rows.length === 1 ? "row" : "rows"}
            </Button>
          </span>
        ) : null}
      </div>
    </div>
  )
}

/** A chosen part as its chip says it; a standing with the measure it is of. */
function wordsOf(name: FacetName, word: string, measure: MeasureColumn | null): string {
  if (name !== "standing" || measure === null) return chipWords(name, word)
  return `${measure.name}: ${measure.words[word] ?? word}`
}

/** On a phone, where there are no heads to press. */
function SortChoice({ allColumns, sort, view, go }: ToolbarProps) {
  return (
    <label className={styles.sort}>
      by{" "}
      <select
        value={`${sort?.direction === "down" ? "-" : ""}${sort?.column.id ?? ""}`}
        onChange={(event) => go({ ...view, sort: event.target.value })}
      >
        {allColumns.flatMap((column) => [
          <option key={column.id} value={column.id}>
            {column.head}
          </option>,
          <option key={`-${column.id}`} value={`-${column.id}`}>
            {column.head}, downwards
          </option>,
        ])}
      </select>
    </label>
  )
}

/** Saves the rows shown, in their order, with the columns shown and the clinic's number of each person. */
function download({ panel, rows, allColumns, columns, asOf }: ToolbarProps): void {
  const number = allColumns.filter((column) => column.id === "number")
  const saved = [...number, ...columns.filter((column) => column.id !== "number")]
  const head = saved.map((column) => (column.unit ? `${column.head} (${column.unit})` : column.head))
  const cells = Array.from(rows, (row) => saved.map((column) => column.text(panel, row)))
  saveFile(`patients-${asOf}.csv`, "text/csv;charset=utf-8", csvOf([head, ...cells]))
}
