import { withSettings } from "../domain/setting-words"
import type { Settings } from "../domain/settings"
import { measures } from "./index"
import type { Condition, Measure, WordedMeasure } from "./types"

/** Every measure as it is to be read under the given settings: no word of it names a setting, all of them say its value. */
export function wordedMeasures(settings: Settings): readonly WordedMeasure[] {
  return measures.map((measure) => wordedMeasure(measure, settings))
}

export function findWordedMeasure(id: string, settings: Settings): WordedMeasure | undefined {
  const measure = measures.find((one) => one.id === id)
  return measure && wordedMeasure(measure, settings)
}

export function wordedMeasure(measure: Measure, settings: Settings): WordedMeasure {
  const said = (words: string) => withSettings(words, settings)
  const condition = (one: Condition): Condition => ({ ...one, words: said(one.words) })
  return {
    ...measure,
    name: said(measure.name),
    question: said(measure.question),
    action: said(measure.action),
    metWords: said(measure.metWords),
    notMetWords: said(measure.notMetWords),
    population: measure.population.map(condition),
    excluded: measure.excluded.map(condition),
    unknown: measure.unknown.map(condition),
    met: condition(measure.met),
    exception: measure.exception.map(condition),
    source: said(measure.source),
    set: settings,
  }
}
