import { count, day, oneDecimal, percentTenth, sentenceCase } from "../../../../lib/speech/format"
import type { Column } from "./column"

export const filtration: Column = {
  head: "eGFR",
  unit: "mL/min/\u200b1.73\u00a0m\u00b2",
  label: "eGFR",
  isNumber: true,
  absent: "no result",
  cell: (one) => (one.egfr === null ? null : count(one.egfr)),
}

export const urineAlbumin: Column = {
  head: "ACR",
  unit: "mg/g",
  label: "ACR",
  isNumber: true,
  absent: "no result",
  cell: (one) =>
    one.acr === null
      ? one.a === null
        ? null
        : "by PCR"
      : `${one.acr_comparator ?? ""}${one.acr < 10 ? one.acr.toFixed(1) : count(one.acr)}`,
}

export const urineCategory: Column = {
  head: "Urine",
  label: "urine",
  absent: "no result",
  cell: (one) => (one.a === null || one.urine_on === null ? null : `${one.a} on ${day(one.urine_on)}`),
}

export const urineLast: Column = {
  head: "Last urine albumin or protein",
  label: "last urine test",
  isNumber: true,
  absent: "never",
  cell: (one) => (one.urine_last_on === null ? null : day(one.urine_last_on)),
}

export const potassium: Column = {
  head: "Potassium",
  unit: "mmol/L",
  label: "potassium",
  absent: "no result",
  cell: (one) =>
    one.potassium === null || one.potassium_on === null
      ? null
      : `${one.potassium_comparator ?? ""}${one.potassium.toFixed(1)} on ${day(one.potassium_on)}`,
}

export const egfrTested: Column = {
  head: "Last eGFR",
  label: "last eGFR",
  isNumber: true,
  absent: "never",
  cell: (one) => (one.egfr_tested_on === null ? null : day(one.egfr_tested_on)),
}

export const acrTested: Column = {
  head: "Last ACR",
  label: "last ACR",
  isNumber: true,
  absent: "never",
  cell: (one) => (one.acr_last_on === null ? null : day(one.acr_last_on)),
}

export const riskCell: Column = {
  head: "KDIGO risk",
  label: "KDIGO risk",
  cell: (one) => (one.risk_cell === null ? null : sentenceCase(one.risk_cell)),
}

export const testsDone: Column = {
  head: "eGFR days in 12 months",
  label: "eGFR days in 12 months",
  cell: (one) =>
    one.tests_due === null ? null : `${count(one.egfr_days_in_year)} of ${count(one.tests_due)} asked for`,
}

export const slope: Column = {
  head: "Slope of eGFR",
  unit: "a year",
  label: "slope a year",
  isNumber: true,
  absent: "too few results",
  cell: (one) =>
    one.slope === null
      ? null
      : `${oneDecimal(one.slope)}${one.slope_standard_error === null ? "" : ` (SE ${oneDecimal(one.slope_standard_error)})`}`,
}

export const slopeDays: Column = {
  head: "From days",
  label: "from days",
  isNumber: true,
  cell: (one) => (one.slope_points === null ? null : count(one.slope_points)),
}

export const failureRisk: Column = {
  head: "Risk of failure in 2 years",
  label: "risk in 2 years",
  isNumber: true,
  absent: "not computable",
  cell: (one) => (one.failure_risk_2_years === null ? null : percentTenth(one.failure_risk_2_years)),
}

export const failureRiskLater: Column = {
  head: "in 5 years",
  label: "in 5 years",
  isNumber: true,
  absent: " ",
  cell: (one) => (one.failure_risk_5_years === null ? null : percentTenth(one.failure_risk_5_years)),
}

export const sodium: Column = {
  head: "Sodium",
  unit: "mg a day",
  label: "sodium, mg a day",
  isNumber: true,
  absent: "no record",
  cell: (one) => (one.sodium_in_year_mg === null ? null : count(one.sodium_in_year_mg)),
}

export const sodiumFrom: Column = {
  head: "From",
  absent: " ",
  cell: (one) =>
    one.sodium_in_year_series === null || one.sodium_in_year_on === null
      ? null
      : `${one.sodium_in_year_series}, ${day(one.sodium_in_year_on)}`,
}

export const dietitianSeen: Column = {
  head: "Last seen by a dietitian",
  label: "last seen by a dietitian",
  isNumber: true,
  absent: "never",
  cell: (one) => (one.dietitian_seen_on === null ? null : day(one.dietitian_seen_on)),
}
