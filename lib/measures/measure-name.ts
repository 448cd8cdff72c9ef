import { dietSodium } from "./diet-sodium"
import { findMeasure } from "./index"

/** The name of a measure by its id, the mean sodium included; a log may hold ids that are listed no longer. */
export function measureName(id: string): string {
  if (id === dietSodium.id) return dietSodium.name
  return findMeasure(id)?.name ?? "A measure that is no longer listed"
}
