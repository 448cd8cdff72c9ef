import { workday, type Day } from "./calendar"
import type { Period } from "./clinic"
import { attendDialysis, nextEpisodeDay, receiveTransplant, startDialysis, sufferEpisode } from "./episodes"
import { drawFate, drawLostDay, type Fate } from "./fate"
import { drawHomePeriod, measureAtHome, nextHomeDay } from "./home-monitoring"
import { drawKidney, egfrOn } from "./kidney"
import { noRows } from "./extract-columns"
import { isOnAceOrArb, noNotes, treatmentsOf, type Life } from "./life"
import { writeOpenCourses } from "./orders"
import { startSglt2, writeOtherDrugs } from "./other-drugs"
import { drawPerson, patientRow, type Person } from "./person"
import { reviewStage, writeLaterProblems, writeProblemList } from "./problems"
import { openRandom, type Random } from "./random"
import { earlierRasHistory, writeAllergy } from "./ras-blockade"
import { sufferSlips } from "./slips"
import { drawDietPeriod, nextDietDay, recordDiet, referAgain } from "./sodium"
import { startingRegimen } from "./treatment"
import { bookAhead, interimBloods, planVisit, titrateFromHome } from "./visits"

export type ToldLife = { life: Life; fate: Fate }

/** Tells the life of the person with this number, day by day. The same seed and number tell the same life. */
export function tellLife(options: { seed: number; number: number; period: Period }): ToldLife {
  const { seed, number, period } = options
  const random = openRandom(seed, "patient", number)
  const person = drawPerson({ number, period, random })
  const life = openLife(person, period, random)
  const fate = drawFate(life)
  life.period = { ...period, through: fate.lastDay }
  life.rows.patients.push(patientRow({ person, random, end: fate }))
  bringHistory(life)
  liveThrough(life, { fate, isStillHere: fate.lastDay === period.through })
  writeLaterProblems(life)
  if (fate.lastDay === period.through) sufferSlips(life, openRandom(seed, "slips", number))
  writeOpenCourses(life)
  return { life, fate }
}

function openLife(person: Person, period: Period, random: Random): Life {
  const anchor = Math.max(period.start, person.registered)
  const age = (anchor - person.birth) / 365.25
  const shared = random.normal(0, 1)
  const level = person.hasHypertension ? 142 : 120
  return {
    person,
    period,
    random,
    kidney: drawKidney({ person, anchor, random }),
    rows: noRows(),
    notes: noNotes(),
    regimen: [],
    sglt2From: null,
    untreated: {
      systolic: level + 13 * shared + 0.12 * (age - 66),
      diastolic: (person.hasHypertension ? 77 : 69) + 5 * shared - 0.33 * (age - 66) + random.normal(0, 5),
    },
    usualSodiumMg: Math.min(9000, Math.max(1100, Math.exp(random.normal(Math.log(3628), 0.3)))),
    isInDietProgramme: false,
    homeFrom: null,
    homeUntil: period.through,
    dietFrom: null,
    dietUntil: period.through,
    dialysisFrom: null,
    transplantFrom: null,
    palliativeFrom: null,
    rasBarrier: { aceInhibitor: false, both: false },
    rasStoppedOn: null,
    sequence: 0,
  }
}

/** What the records held when the story begins. */
function bringHistory(life: Life): void {
  const { person, period, random, kidney } = life
  const day = Math.max(period.runIn, person.registered)
  const egfr = egfrOn(kidney, day, treatmentsOf(life, day))
  const isAlbuminuric = kidney.lnAcrAtAnchor > Math.log(30)
  earlierRasHistory(life, { day, isAlbuminuric })
  startingRegimen(life, { day, egfr, isAlbuminuric })
  writeProblemList(life, day)
  writeOtherDrugs(life, day)
  drawHomePeriod(life)
  drawDietPeriod(life)
  if (random.chance(0.14)) {
    const substance = random.pick([
      "penicillin",
      "Sulfa drugs",
      "iodinated contrast",
      "latex",
      "trimethoprim",
    ])
    writeAllergy(life, {
      substance,
      reaction: random.pick(["rash", "anaphylaxis", "other"]),
      kind: "allergy",
      day: day - random.whole(10, 2500),
    })
  }
  const wasHereBefore = person.registered < period.start
  if (wasHereBefore && random.chance(0.026)) startDialysis(life, period.start - random.whole(10, 900))
  else if (wasHereBefore && random.chance(0.022))
    receiveTransplant(life, period.start - random.whole(400, 3000))
}

type Agenda = { visit: Day; bloods: Day; home: Day; diet: Day; episode: Day; dialysis: Day }

const never = Number.POSITIVE_INFINITY

function liveThrough(life: Life, options: { fate: Fate; isStillHere: boolean }): void {
  const { random, period, person } = life
  const isNew = person.registered >= period.runIn
  const first = isNew
    ? workday(person.registered + random.whole(2, 40))
    : workday(period.runIn + random.whole(0, 150))
  const lostFrom = drawLostDay(life)
  const agenda: Agenda = {
    visit: first,
    bloods: first + Math.round(random.wait(120)),
    home: life.homeFrom ?? never,
    diet: life.dietFrom ?? never,
    episode: nextEpisodeDay(life, Math.max(period.start, person.registered)),
    dialysis: life.dialysisFrom === null ? never : period.start + random.whole(0, 10),
  }
  for (;;) {
    const day = Math.min(
      agenda.visit,
      agenda.bloods,
      agenda.home,
      agenda.diet,
      agenda.episode,
      agenda.dialysis,
    )
    if (day > period.through || day >= lostFrom) break
    if (day === agenda.dialysis) agenda.dialysis = attendDialysis(life, day)
    else if (day === agenda.visit) agenda.visit = visitAndReview(life, agenda, day)
    else if (day === agenda.bloods) agenda.bloods = takeInterim(life, day)
    else if (day === agenda.home) agenda.home = measureWhileWilling(life, day)
    else if (day === agenda.diet) agenda.diet = recordWhileReferred(life, day)
    else agenda.episode = haveEpisode(life, day)
  }
  if (options.isStillHere && lostFrom > period.through)
    bookAhead(life, Math.min(agenda.visit, period.through + 300))
}

function visitAndReview(life: Life, agenda: Agenda, day: Day): Day {
  const next = planVisit(life, day)
  reviewStage(life, day)
  considerSglt2(life, day)
  considerReplacement(life, agenda, day)
  return next
}

function takeInterim(life: Life, day: Day): Day {
  interimBloods(life, day)
  return workday(day + 10 + life.random.wait(life.dialysisFrom === null ? 120 : 50))
}

function measureWhileWilling(life: Life, day: Day): Day {
  if (day > life.homeUntil || life.dialysisFrom !== null) return never
  measureAtHome(life, day)
  titrateFromHome(life, day)
  return nextHomeDay(life, day)
}

function recordWhileReferred(life: Life, day: Day): Day {
  if (life.dialysisFrom !== null) return never
  if (day > life.dietUntil) return referAgain(life, day)
  recordDiet(life, day)
  return nextDietDay(life, day)
}

function haveEpisode(life: Life, day: Day): Day {
  sufferEpisode(life, day)
  return nextEpisodeDay(life, day + 5)
}

/** At the end of the kidneys' own function: dialysis for most, a transplant for some, comfort for some. */
function considerReplacement(life: Life, agenda: Agenda, day: Day): void {
  const { random, kidney, period } = life
  if (life.palliativeFrom !== null || day < period.start) return
  const age = (day - life.person.birth) / 365.25
  if (life.dialysisFrom !== null) {
    if (age < 70 && random.chance(0.035)) {
      receiveTransplant(life, day)
      agenda.dialysis = never
    }
    return
  }
  if (egfrOn(kidney, day, treatmentsOf(life, day)) > kidney.dialysisAt) return
  const draw = random.unit()
  if (draw < (age > 78 ? 0.4 : 0.06)) {
    life.palliativeFrom = day
    life.notes.palliativeFrom = day
  } else if (draw > 0.92 && age < 68) receiveTransplant(life, day)
  else {
    startDialysis(life, day)
    agenda.dialysis = day + random.whole(2, 12)
  }
}

function considerSglt2(life: Life, day: Day): void {
  const { random, period, person, kidney } = life
  if (
    life.sglt2From !== null ||
    life.dialysisFrom !== null ||
    life.transplantFrom !== null ||
    person.hasType1
  )
    return
  const acr = life.notes.urine.at(-1)?.acr ?? 0
  const isEligible =
    egfrOn(kidney, day, treatmentsOf(life, day)) >= 20 &&
    (acr >= 200 || person.hasDiabetes || person.hasHeartFailure)
  if (!isEligible) return
  const share = Math.max(0, (day - period.runIn) / (period.through - period.runIn + 1))
  const isTaken = random.chance((0.02 + 0.05 * share) * person.zeal * (isOnAceOrArb(life) ? 1 : 0.6))
  if (isTaken) startSglt2(life, day)
}
