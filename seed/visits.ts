import { textOf, timeOf, workday, type Day } from "./calendar"
import { egfrOn } from "./kidney"
import { takeBloods, takePotassium, takeUrine } from "./labs"
import { nextId, treatmentsOf, type Life } from "./life"
import { takeAmbulatoryPressure, takeOfficePressure, type Pressure } from "./pressure"
import { reviewRasBlocker } from "./ras-blockade"
import { easeOff, intensify } from "./treatment"

/** Days from one clinic visit to the next: the lower the function, the sooner. */
export function nextVisitDay(life: Life, day: Day): Day {
  const egfr = egfrOn(life.kidney, day, treatmentsOf(life, day))
  const usual =
    life.transplantFrom !== null
      ? 75
      : life.dialysisFrom !== null
        ? 90
        : egfr < 15
          ? 48
          : egfr < 30
            ? 88
            : egfr < 45
              ? 118
              : egfr < 60
                ? 165
                : 205
  const isRunIn = day < life.period.start
  const scatter = Math.exp(life.random.normal(0, 0.2))
  return workday(day + usual * life.person.pace * scatter * (isRunIn ? 1.15 : 1))
}

/** A planned visit: kept, missed or cancelled. Returns the day of the next one. */
export function planVisit(life: Life, day: Day): Day {
  const { random, person } = life
  const isTelehealth = random.chance(person.telehealthShare)
  const kind = isTelehealth ? "telehealth" : "office"
  const draw = random.unit()
  const status = draw < 0.845 ? "kept" : draw < 0.92 ? "missed" : "cancelled"
  if (day >= life.period.start && random.chance(0.94)) {
    life.rows.appointments.push({
      appointment_id: nextId(life, "T"),
      patient_id: person.id,
      starts_at: timeOf(day, 8 * 60 + 15 * random.whole(0, 34)),
      clinician_id: person.clinicianId ?? "",
      kind,
      status,
    })
  }
  if (status !== "kept") return workday(day + random.whole(14, 50))
  holdVisit(life, { day, kind })
  return nextVisitDay(life, day)
}

function holdVisit(life: Life, visit: { day: Day; kind: "office" | "telehealth" }): void {
  const { random, person } = life
  const { day, kind } = visit
  life.rows.visits.push({
    visit_id: nextId(life, "V"),
    patient_id: person.id,
    started_on: textOf(day),
    ended_on: random.chance(0.3) ? textOf(day) : "",
    kind: person.site === "Northgate" ? kind : kind === "office" ? "Office" : "Telehealth",
    clinician_id: person.clinicianId ?? "",
  })
  life.notes.visits.push({ day, isCounted: true })

  const pressure = kind === "office" && random.chance(0.915) ? takeOfficePressure(life, day) : null
  const bloodDay = Math.max(life.period.runIn, day - (random.chance(0.3) ? random.whole(1, 9) : 0))
  const hasBloods = random.chance(kind === "office" ? 0.93 : 0.75)
  const bloods = hasBloods ? takeBloods(life, bloodDay) : null
  const acr = random.chance(urineShare(life, kind))
    ? takeUrine(life, bloodDay)
    : (life.notes.urine.at(-1)?.acr ?? 0)

  const egfr = bloods?.egfr ?? life.notes.egfr.at(-1)?.egfr ?? life.kidney.egfrAtAnchor
  const findings = {
    day,
    pressure: bestPressure(life, day, pressure),
    egfr,
    potassium: bloods?.potassium ?? null,
  }
  if (life.dialysisFrom !== null) return
  const startsBefore = life.notes.rasStarts.length
  reviewRasBlocker(life, { ...findings, acr })
  intensify(life, findings)
  easeOff(life, findings)
  if (life.notes.rasStarts.length > startsBefore) checkAfterStart(life, day)
  if (pressure && pressure.systolic >= 138 && random.chance(0.07)) considerMonitoring(life, day)
}

/** Home pressure decides when it is fresh, as it does in the clinic. */
function bestPressure(life: Life, day: Day, office: Pressure | null): Pressure | null {
  const home = life.notes.home.findLast((average) => average.isValid)
  return home && home.day > day - 60 ? { systolic: home.systolic + 1.5, diastolic: home.diastolic } : office
}

/** A nurse reads what comes in from home, and passes it on when it stays high. */
export function titrateFromHome(life: Life, day: Day): void {
  const home = life.notes.home.at(-1)
  if (!home || !home.isValid || home.day !== day || !life.random.chance(0.3)) return
  const egfr = life.notes.egfr.at(-1)?.egfr ?? life.kidney.egfrAtAnchor
  const pressure = { systolic: home.systolic, diastolic: home.diastolic }
  const findings = { day, pressure, egfr, potassium: life.notes.potassium.at(-1)?.mmol ?? null }
  intensify(life, findings)
  easeOff(life, findings)
}

/** Urine is asked for when albumin was found before, in diabetes, and by habit. */
function urineShare(life: Life, kind: "office" | "telehealth"): number {
  const last = life.notes.urine.at(-1)?.acr ?? 40
  const need = last > 300 ? 0.4 : last > 30 ? 0.33 : 0.2
  const share = (need + (life.person.hasDiabetes ? 0.1 : 0)) * life.person.urineHabit
  return (kind === "office" ? share : share * 0.4) * (life.dialysisFrom === null ? 1 : 0.1)
}

/** About half have their blood taken within four weeks of starting, as published. */
function checkAfterStart(life: Life, day: Day): void {
  const { random } = life
  const start = life.notes.rasStarts.at(-1)
  if (!start || !random.chance(0.53)) return
  const wait = random.whole(6, 26)
  const checkDay = workday(day + wait)
  if (checkDay > life.period.through) return
  takeBloods(life, checkDay)
  start.checkedAfterDays = checkDay - day
}

function considerMonitoring(life: Life, day: Day): void {
  const monitoringDay = workday(day + life.random.whole(5, 30))
  if (monitoringDay <= life.period.through) takeAmbulatoryPressure(life, monitoringDay)
}

/** A blood test between visits. */
export function interimBloods(life: Life, day: Day): void {
  const { random } = life
  if (random.chance(0.7)) {
    takeBloods(life, day)
    return
  }
  const egfr = egfrOn(life.kidney, day, treatmentsOf(life, day))
  takePotassium(life, { day, time: timeOf(day, 8 * 60 + random.whole(0, 300)), egfr })
}

/** The next appointments in the book, and for some none at all. */
export function bookAhead(life: Life, nextDay: Day): void {
  const { random, person, period } = life
  if (random.chance(0.13)) return
  const day = nextDay > period.through ? nextDay : workday(period.through + random.whole(1, 60))
  life.rows.appointments.push({
    appointment_id: nextId(life, "T"),
    patient_id: person.id,
    starts_at: timeOf(day, 8 * 60 + 15 * random.whole(0, 34)),
    clinician_id: person.clinicianId ?? "",
    kind: random.chance(person.telehealthShare) ? "telehealth" : "office",
    status: random.chance(0.5) ? "booked" : "",
  })
}
