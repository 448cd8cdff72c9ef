/** The mean daily sodium: a mean over the panel's records, so it has series instead of standings. */
export const dietSodium = {
  id: "diet-sodium",
  theme: "diet",
  name: "Mean daily sodium",
  question: "What is the mean daily sodium, and is it falling?",
  actor: "dietitian",
  action:
    "See where the salt of those who bring a record comes from, and ask for a record where there is none. Clinicians decide; local policy applies.",
  /** The series of the headline; the others are shown apart because methods are not mixed in one mean. */
  headlineSeries: "counted days",
  series: ["counted days", "food frequency", "24-hour urine"],
  limits: [
    {
      mg: 2300,
      source:
        "Chronic disease risk reduction intake: National Academies 2019, Dietary Reference Intakes for Sodium and Potassium, doi:10.17226/25353",
    },
    {
      mg: 2000,
      source:
        "KDIGO 2024 CKD guideline, Kidney Int 105(4S):S117-S314, section 3.3, doi:10.1016/j.kint.2023.10.018; WHO 2012 guideline on sodium intake",
    },
    {
      mg: 1500,
      source:
        "Optimal goal: Whelton 2018, ACC/AHA guideline, Hypertension 71:e13-e115, section 6.2, doi:10.1161/HYP.0000000000000065",
    },
  ],
} as const
