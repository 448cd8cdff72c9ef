import { addMonths, type Day } from "./calendar"
import type { Row } from "./extract-columns"

export const clinicName = "Lowmoor Kidney Clinic"

export const sites = ["Northgate", "Riverside"] as const
export type Site = (typeof sites)[number]

type StaffMember = {
  id: string
  name: string
  role: "nephrologist" | "dietitian" | "coordinator" | "nurse"
  site: Site
  /** How readily this nephrologist changes treatment: 1 is average. */
  zeal: number
  /** How readily this nephrologist asks for a urine albumin: 1 is average. */
  urineHabit: number
}

/** Invented people. */
export const staff: readonly StaffMember[] = [
  {
    id: "S-01",
    name: "Dr Ines Castellan",
    role: "nephrologist",
    site: "Northgate",
    zeal: 1.2,
    urineHabit: 1.15,
  },
  { id: "S-02", name: "Dr Kofi Osei", role: "nephrologist", site: "Northgate", zeal: 1, urineHabit: 1.2 },
  {
    id: "S-03",
    name: "Dr Livia Marchetti",
    role: "nephrologist",
    site: "Riverside",
    zeal: 1.15,
    urineHabit: 1,
  },
  {
    id: "S-04",
    name: "Dr Harald Lindqvist",
    role: "nephrologist",
    site: "Riverside",
    zeal: 0.75,
    urineHabit: 0.7,
  },
  {
    id: "S-05",
    name: "Dr Meera Raghunathan",
    role: "nephrologist",
    site: "Northgate",
    zeal: 0.9,
    urineHabit: 0.9,
  },
  {
    id: "S-06",
    name: "Dr Tobias Ferreira",
    role: "nephrologist",
    site: "Riverside",
    zeal: 1,
    urineHabit: 1.05,
  },
  { id: "S-11", name: "Hana Sokol", role: "dietitian", site: "Northgate", zeal: 1, urineHabit: 1 },
  { id: "S-12", name: "Pilar Quintero", role: "dietitian", site: "Riverside", zeal: 1, urineHabit: 1 },
  { id: "S-21", name: "Rashida Adeyinka", role: "coordinator", site: "Northgate", zeal: 1, urineHabit: 1 },
  { id: "S-22", name: "Colm Brannigan", role: "coordinator", site: "Riverside", zeal: 1, urineHabit: 1 },
  { id: "S-31", name: "Noor Haddad", role: "nurse", site: "Northgate", zeal: 1, urineHabit: 1 },
  { id: "S-32", name: "Joan Whitlock", role: "nurse", site: "Riverside", zeal: 1, urineHabit: 1 },
  { id: "S-33", name: "Emeka Obi", role: "nurse", site: "Riverside", zeal: 1, urineHabit: 1 },
]

/** Retired, and no longer in the staff list: patients who still name this person show as not assigned. */
export const retiredClinicianId = "S-07"

export function staffRows(): Row<"staff">[] {
  return staff.map((member) => ({
    staff_id: member.id,
    name: member.name,
    role: member.role,
    site: member.site,
  }))
}

export function nephrologistsAt(site: Site): readonly StaffMember[] {
  return staff.filter((member) => member.role === "nephrologist" && member.site === site)
}

export function dietitianAt(site: Site): StaffMember {
  const found = staff.find((member) => member.role === "dietitian" && member.site === site)
  if (!found) throw new RangeError("dietitianAt requires a site with a dietitian")
  return found
}

/** The days between which the demo clinic's story is told. */
export type Period = {
  /** First day told of, some months before `start`: what the records held already. */
  runIn: Day
  start: Day
  /** Last day told of; later days hold only appointments. */
  through: Day
  /** From here on the clinic hands out home cuffs. */
  homeCuffsFrom: Day
  /** From here on Riverside runs its sodium programme. */
  sodiumProgrammeFrom: Day
  /** From here on a nurse reviews everyone with albuminuria and no ACE inhibitor or ARB. */
  protectionReviewFrom: Day
}

/** Lays the programmes out over the last `months` months before `through`. */
export function periodOf(options: { through: Day; months: number }): Period {
  const { through, months } = options
  const start = addMonths(through, -months)
  return {
    runIn: addMonths(start, -24),
    start,
    through,
    homeCuffsFrom: addMonths(start, Math.round(months * 0.45)),
    sodiumProgrammeFrom: addMonths(start, Math.round(months * 0.5)),
    protectionReviewFrom: addMonths(start, Math.round(months * 0.6)),
  }
}
