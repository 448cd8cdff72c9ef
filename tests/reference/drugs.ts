import type { Day } from "./day"
import { floorOf } from "./exact"
import type { Order } from "./facts"
import { ingredientsOfCode, ingredientsOfText, type DrugClass, type Ingredient } from "./drug-list"

/** An order that counts: its ingredients and the days it was active, the last one included. */
export type Course = { ingredients: Ingredient[]; startedOn: Day; lastDay: Day }

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
      ingredients: [...ingredientsOfCode(order.codeSystem, order.code), ...ingredientsOfText(order.drug)],
      startedOn: order.startedOn,
      lastDay: lastActiveDay(order),
    }))
    .filter((course) => course.lastDay >= course.startedOn)
}

/** The classes active on a day, each once, sorted. */
export function classesOn(courses: Course[], on: Day): DrugClass[] {
  const classes = courses
    .filter((course) => isActive(course, on))
    .flatMap((course) => course.ingredients.map((ingredient) => ingredient.class))
  return [...new Set(classes)].sort()
}

/** The latest day on which one of the active classes started; null without a class. */
export function newestClassStart(courses: Course[], on: Day): Day | null {
  const starts = classesOn(courses, on).flatMap((drugClass) => {
    const ofClass = courses.filter((course) => course.ingredients.some((each) => each.class === drugClass))
    return ofClass
      .map((course) => course.startedOn)
      .filter((start) => start <= on && isClassStart(ofClass, start))
  })
  return starts.length === 0 ? null : Math.max(...starts)
}

export function isOnAceInhibitorOrArb(courses: Course[], on: Day): boolean {
  return courses.some((course) => hasAceInhibitorOrArb(course) && isActive(course, on))
}

export function rasHistory(courses: Course[], on: Day): "on" | "stopped" | "never" {
  if (isOnAceInhibitorOrArb(courses, on)) return "on"
  const wasActiveEarlier = courses.some((course) => hasAceInhibitorOrArb(course) && course.startedOn < on)
  return wasActiveEarlier ? "stopped" : "never"
}

/** A start after at least 90 days without the class: active on none of the 90 days before. */
function isClassStart(coursesOfClass: Course[], start: Day): boolean {
  for (let day = start - 90; day < start; day += 1) {
    if (coursesOfClass.some((course) => isActive(course, day))) return false
  }
  return true
}

function isActive(course: Course, on: Day): boolean {
  return course.startedOn <= on && on <= course.lastDay
}

function hasAceInhibitorOrArb(course: Course): boolean {
  return course.ingredients.some(({ kind }) => kind === "ACE inhibitor" || kind === "ARB")
}

/** Active while stopped_on is later and, when the supply is given, for 30 days after it ends. */
function lastActiveDay(order: Order): Day {
  const beforeStop = order.stoppedOn === null ? Infinity : order.stoppedOn - 1
  if (order.supplyDays === null) return beforeStop
  return Math.min(beforeStop, order.startedOn + Number(floorOf(order.supplyDays)) + graceDays)
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
