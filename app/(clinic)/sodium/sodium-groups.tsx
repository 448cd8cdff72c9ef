import { sodiumChangeWords, sodiumMeanWords } from "../../../lib/figures/sodium-mean-words"
import { fewestForMean } from "../../../lib/figures/diet-figure"
import { shareWords } from "../../../lib/figures/sodium-share-words"
import { sodiumGroupKinds, type SodiumGroup } from "../../../lib/questions/sodium-groups"
import { count, counted, sentenceCase } from "../../../lib/speech/format"
import { Theme } from "../../_ui/screen"
import { TableHead } from "../../_ui/table-head"
import table from "../../_ui/table.module.css"
import { dietMethodWords } from "../diet-method-words"
import styles from "./sodium.module.css"

type Kind = (typeof sodiumGroupKinds)[number]

const titles: Record<Kind, { title: string; none: string }> = {
  site: { title: "Site", none: "no site" },
  dietitian: { title: "Dietitian seen last, 12 months", none: "no visit to a dietitian" },
  method: { title: "Method", none: "method not on record" },
}
const mostAtOnce = 12

/** The same by site, dietitian and method, in the order of their names; each way of asking apart, never ranked. */
export function SodiumGroups({ groups, limitMg }: { groups: SodiumGroup[]; limitMg: number }) {
  if (groups.length === 0) return null
  return (
    <Theme id="groups" title="By site, dietitian and method" note="Never ranked; a few people say little">
      {sodiumGroupKinds.map((kind) => (
        <Division
          key={kind}
          kind={kind}
          groups={groups.filter((one) => one.kind === kind)}
          limitMg={limitMg}
        />
      ))}
    </Theme>
  )
}

function Division({ kind, groups, limitMg }: { kind: Kind; groups: SodiumGroup[]; limitMg: number }) {
  const isFew = (one: SodiumGroup) => one.n < fewestForMean && one.paired_n < fewestForMean
  const few = groups.length > mostAtOnce ? groups.filter(isFew) : []
  return (
    <div className={styles.division}>
      <GroupTable kind={kind} groups={groups.filter((one) => !few.includes(one))} limitMg={limitMg} />
      {few.length === 0 ? null : (
        <details className="fine soft">
          <summary>
            {counted(few.length, "further row", "further rows")} of few people, by {kind}
          </summary>
          <GroupTable kind={kind} groups={few} limitMg={limitMg} />
        </details>
      )}
    </div>
  )
}

function GroupTable({ kind, groups, limitMg }: { kind: Kind; groups: SodiumGroup[]; limitMg: number }) {
  const { title } = titles[kind]
  const limit = `at or under ${count(limitMg)}`
  const heads = [title, "Way of asking", "Mean, mg a day", sentenceCase(limit)]
  return (
    <div className={table.frame}>
      <table className={table.table} role="table">
        <caption className="visually-hidden">Sodium by {kind}</caption>
        <TableHead heads={[...heads, ...(kind === "method" ? [] : ["Change in the same people"])]} />
        <tbody role="rowgroup">
          {groups.map((one) => (
            <tr key={`${one.name} ${one.series}`} role="row">
              <th scope="row" role="rowheader">
                {one.name === null ? titles[kind].none : nameWords(one)}
              </th>
              <td role="cell">{one.series}</td>
              <td role="cell" data-label="mean">
                {sodiumMeanWords({ n: one.n, mean: one.mean_mg, sd: one.sd_mg })}
              </td>
              <td role="cell" data-label={limit}>
                {shareWords(one.within, one.n)}
              </td>
              {kind === "method" ? null : (
                <td role="cell" className={table.wrap} data-label="change in the same people">
                  {changeWords(one)}
                </td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

function nameWords({ kind, name }: SodiumGroup): string {
  return kind === "method" ? sentenceCase(dietMethodWords(name ?? "")) : (name ?? "")
}

function changeWords(one: SodiumGroup): string {
  if (one.paired_n === 0) return "none with a pair"
  const change = sodiumChangeWords({
    n: one.paired_n,
    mean: one.paired_change_mg,
    sd: one.paired_sd_mg,
  })
  const people = counted(one.paired_n, "person", "people")
  return one.paired_n < fewestForMean ? people : `${change}, ${people}`
}
