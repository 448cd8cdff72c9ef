import Link from "next/link"
import type { Caller } from "../../../../lib/access/caller"
import { count, counted, day, month, sentenceCase } from "../../../../lib/speech/format"
import { hrefOf } from "../../../_ui/href"
import { Pager } from "../../../_ui/pager"
import { dietSodium } from "../../../../lib/measures/diet-sodium"
import type { DietPerson } from "../../../../lib/questions/diet-people"
import type { DietFigure } from "../../../../lib/figures/diet-figure"
import type { ChosenMonth } from "../../months"
import { ListDownload } from "../../list-download"
import { measureHref, type MeasureView } from "../search-params"
import { pageSize } from "./measure-answers"
import styles from "./people-list.module.css"
import { PersonHead } from "../../../_ui/person-head"
import table from "../../../_ui/table.module.css"

/** The records behind the month's mean of one series, by name; one row a record, so that a person may stand here twice. */
export function DietRecords(props: {
  caller: Caller
  records: DietPerson[]
  figure: DietFigure
  series: string
  chosen: ChosenMonth
  view: MeasureView
}) {
  const { caller, records, figure, series, chosen, view } = props
  const [first] = records
  const param = (name: string) => (name === dietSodium.headlineSeries ? null : name)
  return (
    <>
      <nav className={styles.tabs} aria-label="Ways of asking">
        {figure.series.map(({ name, now }) => (
          <Link
            key={name}
            href={measureHref(dietSodium.id, { month: view.month, series: param(name) }, "people")}
            prefetch={false}
            scroll={false}
            aria-current={name === series ? "true" : undefined}
          >
            {count(now.n)} {name}
          </Link>
        ))}
      </nav>
      {first === undefined ? (
        <p className={styles.nobody}>No record of this series in {month(chosen.month)}.</p>
      ) : (
        <>
          <p className={styles.parts}>
            {counted(first.total, "record", "records")} of {counted(first.people, "person", "people")}.
          </p>
          <RecordTable records={records} month={chosen.param} />
          <div className={styles.foot}>
            <Pager
              page={view.page}
              size={pageSize}
              total={first.total}
              hrefOf={(page) => measureHref(dietSodium.id, { ...view, page }, "people")}
            />
            <ListDownload
              caller={caller}
              needs="people.export"
              place={{ measure: dietSodium.id }}
              href={hrefOf(`/api/measures/${dietSodium.id}/people`, {
                month: view.month,
                series: param(series),
              })}
            >
              Download {counted(first.total, "row", "rows")}
            </ListDownload>
          </div>
        </>
      )}
    </>
  )
}

function RecordTable({ records, month }: { records: DietPerson[]; month: string | null }) {
  return (
    <div className={table.frame}>
      <table className={table.table} role="table">
        <caption className="visually-hidden">Diet records by name</caption>
        <thead role="rowgroup">
          <tr role="row">
            <th scope="col" role="columnheader">
              Name
            </th>
            <th scope="col" role="columnheader" className={table.number}>
              Age
            </th>
            <th scope="col" role="columnheader" className={table.number}>
              On
            </th>
            <th scope="col" role="columnheader">
              Way of asking
            </th>
            <th scope="col" role="columnheader" className={table.number}>
              Sodium<small>mg a day</small>
            </th>
            <th scope="col" role="columnheader">
              Site
            </th>
            <th scope="col" role="columnheader">
              Clinician
            </th>
          </tr>
        </thead>
        <tbody role="rowgroup">
          {records.map((record, place) => (
            <tr key={place} role="row">
              <PersonHead person={record} month={month} />
              <td role="cell" data-label="age" className={table.number}>
                {count(record.age_years)}
              </td>
              <td role="cell" className={table.number}>
                {day(record.day)}
              </td>
              <td role="cell">{sentenceCase(record.method.replaceAll("_", " "))}</td>
              <td role="cell" data-label="sodium, mg a day" className={table.number}>
                {record.comparator}
                {count(record.sodium_mg)}
              </td>
              <td role="cell">{record.site ?? <span className={table.absent}>no site</span>}</td>
              <td role="cell">
                {record.clinician_name ?? <span className={table.absent}>no clinician</span>}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
