import { settingsThen, type SettingsOverTime } from "../../../lib/domain/settings-then"
import type { Settings } from "../../../lib/domain/settings"
import { standings } from "../../../lib/domain/standings"
import { wordedMeasures } from "../../../lib/measures/worded-measures"
import { standingWords } from "../../../lib/speech/measure-words"
import type { MeasureColumn } from "./columns"

/** How the measures are said: by the settings of today, and of closed months that speak otherwise by those of then. */
export type MeasureWordings = {
  today: readonly MeasureColumn[]
  closed: readonly { asOf: string; measures: readonly MeasureColumn[] }[]
}

export function measureWordings(snapshot: SettingsOverTime): MeasureWordings {
  const today = measureColumns(snapshot.settings)
  // Months that speak alike share one list, which is sent to the browser once.
  const alike = new Map([[JSON.stringify(today), today]])
  const closed = snapshot.closed.map(({ asOf }) => {
    const measures = measureColumns(settingsThen(snapshot, asOf))
    const key = JSON.stringify(measures)
    const known = alike.get(key) ?? measures
    alike.set(key, known)
    return { asOf, measures: known }
  })
  return { today, closed: closed.filter(({ measures }) => measures !== today) }
}

function measureColumns(settings: Settings): readonly MeasureColumn[] {
  return wordedMeasures(settings).map((measure) => ({
    id: measure.id,
    column: measure.column,
    name: measure.name,
    theme: measure.theme,
    words: Object.fromEntries(standings.map((standing) => [standing, standingWords(measure, standing)])),
  }))
}
