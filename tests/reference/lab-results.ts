import type { Day } from "./day"
import { compare, exact, type Exact } from "./exact"
import type { Lab } from "./facts"

/** The latest potassium that is not haemolysed; at one instant the higher. */
export function latestPotassium(labs: Lab[], on: Day): Lab | null {
  return (
    potassiums(labs, on)
      .sort((a, b) => a.instant - b.instant || compareWithSigns(a, b))
      .at(-1) ?? null
  )
}

/** The potassium results up to a day that are final and not haemolysed. */
export function potassiums(labs: Lab[], on: Day): Lab[] {
  return labs.filter(
    (lab) => lab.test === "potassium" && lab.day <= on && !lab.isPreliminary && !lab.isHaemolysed,
  )
}

/** Compares two results by value; `<5` is just below 5 and `>5` just above it. */
export function compareWithSigns(a: Lab, b: Lab): number {
  return compare(a.value, b.value) || nudge(a) - nudge(b)
}

export function isAbove(lab: Lab, value: Exact, limit: string): boolean {
  const order = compare(value, exact(limit))
  return order > 0 || (order === 0 && lab.comparator === ">")
}

export function isAtLeast(lab: Lab, value: Exact, limit: string): boolean {
  const order = compare(value, exact(limit))
  return order > 0 || (order === 0 && lab.comparator !== "<")
}

function nudge(lab: Lab): number {
  if (lab.comparator === "<") return -1
  return lab.comparator === ">" ? 1 : 0
}
