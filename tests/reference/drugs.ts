import type { Day } from "./day"
import { floorOf } from "./exact"
import type { Order } from "./facts"
import { ingredientsOfCode, ingredientsOfText, type DrugClass, type Ingredient } from "./drug-list"

/** An order that counts: its ingredients, each once, and the days it was active, the last one included. */
export type Course = { ingredients: Ingredient[]; startedOn: Day; lastDay: Day; order: Order }

const routesNeverCounted =
  "ophthalmic,eye,otic,topical,cutaneous,inhaled,nasal,rectal,vaginal,intravenous".split(",")
const wordsNeverCounted =
  "eye,ophthalmic,ear,drops,topical,cream,ointment,gel,lotion,foam,shampoo,inhaler,nasal,spray,suppository".split(
    ",",
  )
const atcGroupsNeverCounted = ["S01", "D", "R01", "R03", "M02"]
const graceDays = 30

/** The orders that count for any purpose and are active on at least one day. */
export function countedCourses(orders: Order[]): Course[] {
  return orders
    .filter((order) => !isNeverCounted(order))
    .map((order) => ({
      ingredients: ingredientsOf(order),
      startedOn: order.startedOn,
      lastDay: Math.min(lastDayBeforeStop(order), lastDayOfSupply(order)),
      order,
    }))
    .filter((course) => course.lastDay >= course.startedOn)
}

/** The classes active on a day, each once, sorted. */
export function classesOn(courses: Course[], on: Day): DrugClass[] {
  const classes = courses
    .filter((course) => isActive(course, on))
    .flatMap((course) => course.ingredients.flatMap((ingredient) => ingredient.class ?? []))
  return [...new Set(classes)].sort()
}

/** The latest day on which one of the active classes started; null without a class. */
export function newestClassStart(courses: Course[], on: Day): Day | null {
  const starts = classesOn(courses, on).flatMap((drugClass) => {
    const ofClass = coursesOfClass(courses, drugClass)
    return startsAfterPause(ofClass).filter((start) => start <= on)
  })
  return starts.length === 0 ? null : Math.max(...starts)
}

/** The days on which one of the courses starts after at least 90 days without any of them. */
export function startsAfterPause(courses: Course[]): Day[] {
  const starts = [...new Set(courses.map((course) => course.startedOn))]
  return starts.filter((start) => !isActiveWithin(courses, start - 90, start - 1))
}

/** The first days up to a day on which none of the courses is active although one was on the day before. */
export function stopsUpTo(courses: Course[], on: Day): Day[] {
  const ends = [...new Set(courses.map((course) => course.lastDay + 1))]
  return ends.filter((end) => end <= on && !courses.some((course) => isActive(course, end)))
}

export function isActive(course: Course, on: Day): boolean {
  return course.startedOn <= on && on <= course.lastDay
}

export function coursesOfClass(courses: Course[], drugClass: DrugClass): Course[] {
  return courses.filter((course) => course.ingredients.some((each) => each.class === drugClass))
}

export function coursesOfKinds(courses: Course[], kinds: readonly string[]): Course[] {
  return courses.filter((course) => course.ingredients.some((each) => kinds.includes(each.kind)))
}

/** The last active day the supply allows: 30 days after it ends; without a supply there is no such day. */
export function lastDayOfSupply(order: Order): Day {
  if (order.supplyDays === null) return Infinity
  return order.startedOn + Number(floorOf(order.supplyDays)) + graceDays
}

export function lastDayBeforeStop(order: Order): Day {
  return order.stoppedOn === null ? Infinity : order.stoppedOn - 1
}

function isActiveWithin(courses: Course[], from: Day, to: Day): boolean {
  for (let day = from; day <= to; day += 1) {
    if (courses.some((course) => isActive(course, day))) return true
  }
  return false
}

function ingredientsOf(order: Order): Ingredient[] {
  const named = [...ingredientsOfCode(order.codeSystem, order.code), ...ingredientsOfText(order.drug)]
  return [...new Map(named.map((ingredient) => [ingredient.name, ingredient])).values()]
}

function isNeverCounted(order: Order): boolean {
  const words = order.drug.toLowerCase().split(/[^a-z]+/)
  const atc = order.codeSystem === "atc" ? (order.code ?? "").toUpperCase() : ""
  return (
    order.isAsNeeded ||
    routesNeverCounted.includes(order.route) ||
    wordsNeverCounted.some((word) => words.includes(word)) ||
    atcGroupsNeverCounted.some((group) => atc.startsWith(group))
  )
}
