import type { Day } from "./day"
import { compare, exact, plus, times, zero, type Exact } from "./exact"
import type { DrugClass } from "./drug-list"
import { isActive, lastDayBeforeStop, lastDayOfSupply, type Course } from "./drugs"

export type DoseChange = { drugClass: DrugClass; day: Day; isRaise: boolean }

/** Every rise and fall of the daily dose of one ingredient that began up to a day, as that day sees the orders. */
export function doseChanges(courses: Course[], on: Day): DoseChange[] {
  const singles = courses.filter(({ ingredients, startedOn }) => ingredients.length === 1 && startedOn <= on)
  return singles.flatMap((course) => {
    const [ingredient] = course.ingredients
    if (!ingredient || ingredient.class === null) return []
    const ofIngredient = singles.filter((other) => other.ingredients[0]?.name === ingredient.name)
    const direction = directionOn(course.startedOn, ofIngredient, on)
    if (direction === 0) return []
    return [{ drugClass: ingredient.class, day: course.startedOn, isRaise: direction > 0 }]
  })
}

/** Above 0 when the dose on a day is higher than the one before it, below 0 when lower, 0 when equal or not known. */
function directionOn(day: Day, courses: Course[], on: Day): number {
  const now = courses.filter((course) => addsOn(day, course, courses, on))
  const dayBefore = courses.filter((course) => addsOn(day - 1, course, courses, on))
  const before = dayBefore.length > 0 ? dayBefore : ordersBefore(day, courses)
  if (before.length === 0) return 0

  const orders = [...now, ...before].map((course) => course.order)
  const units = new Set(orders.map((order) => order.doseUnit?.toLowerCase()))
  const areTimesMissing = orders.every((order) => order.timesPerDay === null)
  const isAnythingMissing = orders.some(
    (order) =>
      order.dose === null || order.doseUnit === null || (order.timesPerDay === null && !areTimesMissing),
  )
  if (units.size !== 1 || isAnythingMissing) return 0
  return compare(dailyDose(now), dailyDose(before))
}

/** Does the course add its dose on a day? One that ends only by its supply gives way to a later order. */
function addsOn(day: Day, course: Course, courses: Course[], on: Day): boolean {
  if (!isActive(course, day)) return false
  const { order } = course
  const isStopKnown = order.stoppedOn !== null && order.stoppedOn <= on
  const endsByStop = isStopKnown && lastDayBeforeStop(order) <= lastDayOfSupply(order)
  if (order.supplyDays === null || endsByStop) return true
  return !courses.some((later) => later.startedOn > course.startedOn && later.startedOn <= day)
}

/** The order that started last before a day, or those that did on one day. */
function ordersBefore(day: Day, courses: Course[]): Course[] {
  const earlier = courses.filter((course) => course.startedOn < day)
  const latestStart = Math.max(...earlier.map((course) => course.startedOn))
  return earlier.filter((course) => course.startedOn === latestStart)
}

function dailyDose(courses: Course[]): Exact {
  return courses.map(({ order }) => times(order.dose ?? zero, order.timesPerDay ?? exact("1"))).reduce(plus)
}
