// What several lists of published statements ask of somebody: conditions over a row `p` of `patient_month`, each written once.

/** Potassium, where one of the last 12 months counts: above 5.5, above 5.0 and below 3.5 mmol/L. */
export const isPotassiumHigh = "p.has_potassium_in_year and p.is_potassium_high"
export const isPotassiumAboveFive =
  "p.has_potassium_in_year and exceeds(p.potassium, p.potassium_comparator, 5.0)"
export const isPotassiumLow =
  "p.has_potassium_in_year and not reaches(p.potassium, p.potassium_comparator, 3.5)"

/** Who is asked about a pregnancy that is planned: not recorded as male, and under 50 years [common practice, no source]. */
export const mayBePregnant = "p.sex is distinct from 'male' and p.age_years < 50 and not p.pregnancy"
