import { meanOf, percentRow, type PlausibilityRow } from "./plausibility-row"
import type { DayTally, Tally } from "./tally"

/**
 * The plausibility table of a written clinic. Values are the generator's own count on the last day of the story.
 * Where a source gives one figure for another population, the range around it is our judgement.
 */
export function plausibilityRows(tally: Tally): PlausibilityRow[] {
  const last = tally.days.at(-1)
  if (!last) return []
  return [...mixRows(last), ...pressureRows(last), ...protectionRows(last, tally), ...flowRows(last, tally)]
}

const ownPanel = "suggested nephrology panel, after CRIC, CKDopps, GCKD"

function mixRows(last: DayTally): PlausibilityRow[] {
  const staged = Object.values(last.g).reduce((sum, n) => sum + n, 0)
  const withUrine = Object.values(last.a).reduce((sum, n) => sum + n, 0)
  const g = (key: keyof DayTally["g"], published: string, low: number, high: number): PlausibilityRow =>
    percentRow(
      { figure: `eGFR category ${key}`, published, source: ownPanel, low, high },
      { met: last.g[key], of: staged },
    )
  const a = (key: keyof DayTally["a"], published: string, low: number, high: number): PlausibilityRow =>
    percentRow(
      { figure: `urine category ${key}`, published, source: ownPanel, low, high },
      { met: last.a[key], of: withUrine },
    )
  return [
    g("G1-2", "10", 6, 16),
    g("G3a", "20", 15, 26),
    g("G3b", "30", 24, 36),
    g("G4", "28", 21, 34),
    g("G5", "7", 3, 11),
    a("A1", "35", 28, 42),
    a("A2", "33", 26, 41),
    a("A3", "32", 24, 40),
    percentRow(
      {
        figure: "dialysis, transplant or palliative, kept apart",
        published: "5",
        source: ownPanel,
        low: 3,
        high: 12,
      },
      last.apart,
    ),
    percentRow(
      { figure: "hypertension", published: "85 to 92", source: ownPanel, low: 83, high: 94 },
      last.hypertension,
    ),
    percentRow(
      {
        figure: "diabetes",
        published: "40 to 45; 35 in one renal clinic",
        source: `${ownPanel}; PLoS ONE 0127071`,
        low: 35,
        high: 48,
      },
      last.diabetes,
    ),
    {
      figure: "mean age",
      published: "66 to 70",
      source: ownPanel,
      unit: "years",
      low: 64,
      high: 72,
      value: meanOf(last.age),
      counts: `n ${last.age.n}`,
    },
  ]
}

function pressureRows(last: DayTally): PlausibilityRow[] {
  return [
    percentRow(
      {
        figure: "pressure below 130/80 (not measured counts against)",
        published: "48.8 of US adults with CKD; under 40 in three of four clinics' countries",
        source: "USRDS ADR 2018; CKDopps, PMC7879121",
        low: 35,
        high: 50,
      },
      last.atTarget,
    ),
    percentRow(
      {
        figure: "pressure below 140/90",
        published: "68.4; 49 to 76 in clinics",
        source: "USRDS ADR 2018; CKDopps, PMC7879121",
        low: 60,
        high: 75,
      },
      last.under140,
    ),
    percentRow(
      { figure: "no pressure in 12 months", published: "5 to 12", source: "our judgement", low: 5, high: 12 },
      last.notMeasured,
    ),
    percentRow(
      {
        figure: "apparent treatment resistance among the treated",
        published: "40.4 in CRIC; 33.4 at eGFR < 45 in REGARDS",
        source: "Hypertension 2016;67:387; CJASN 2013;8:1583",
        low: 25,
        high: 40,
      },
      last.resistant,
    ),
    percentRow(
      {
        figure: "home average in 12 months",
        published: "15 to 35",
        source: "our judgement",
        low: 15,
        high: 35,
      },
      last.homeInYear,
    ),
  ]
}

function protectionRows(last: DayTally, tally: Tally): PlausibilityRow[] {
  return [
    percentRow(
      {
        figure: "ACE inhibitor or ARB in A3",
        published: "49 current in insured US; 52 to 81 in clinics",
        source: "Mayo Clin Proc 2021;96:2114; CKDopps, PMC7879121",
        low: 50,
        high: 80,
      },
      last.rasAmongA3,
    ),
    percentRow(
      {
        figure: "ever on one, in A3",
        published: "87",
        source: "Mayo Clin Proc 2021;96:2114",
        low: 85,
        high: 99,
      },
      last.everRasAmongA3,
    ),
    percentRow(
      {
        figure: "potassium and creatinine within 28 days of a start",
        published: "47 baseline and follow-up",
        source: "BMJ Open 2017;7:e012818",
        low: 40,
        high: 60,
      },
      tally.checkedAfterStart,
    ),
    percentRow(
      {
        figure: "latest potassium > 5.5 on a RAS blocker",
        published: "2.8 within 90 days of an ACE inhibitor",
        source: "PMC3905673",
        low: 3,
        high: 6,
      },
      last.highPotassiumOnRas,
    ),
    percentRow(
      {
        figure: "urine albumin in 12 months",
        published: "36 to 43 routinely in clinics; 35.1 in diabetes over 2 y",
        source: "CKDopps, PMC7879121; Hypertension 2021;78:1042",
        low: 45,
        high: 70,
      },
      last.acrInYear,
    ),
    percentRow(
      { figure: "eGFR in 12 months", published: "90 or more", source: "our judgement", low: 90, high: 100 },
      last.egfrInYear,
    ),
    percentRow(
      {
        figure: "sodium record in 12 months",
        published: "20 to 40",
        source: "our judgement",
        low: 20,
        high: 40,
      },
      last.sodiumInYear,
    ),
    {
      figure: "mean sodium at Northgate, counted days",
      published: "median about 3,628",
      source: "fitted to CRIC quartiles 2,894 and 4,547",
      unit: "mg",
      low: 3300,
      high: 4100,
      value: meanOf(last.sodium.Northgate),
      counts: `n ${last.sodium.Northgate.n}`,
    },
  ]
}

function flowRows(last: DayTally, tally: Tally): PlausibilityRow[] {
  const panel = `panel ${last.panel}`
  return [
    {
      figure: "joins",
      published: "1 to 1.5",
      source: "our judgement",
      unit: "% a month",
      low: 1,
      high: 1.5,
      value: tally.joinedPerMonth * 100,
      counts: panel,
    },
    {
      figure: "leaves, deaths included",
      published: "1 to 1.5",
      source: "our judgement",
      unit: "% a month",
      low: 1,
      high: 1.5,
      value: tally.leftPerMonth * 100,
      counts: panel,
    },
    {
      ...percentRow(
        {
          figure: "deaths",
          published: "5.9",
          source: "Italian nephrology clinics, PMC3359552",
          low: 4,
          high: 8,
        },
        tally.deathsPerYear,
      ),
      unit: "per 100 person-years",
    },
  ]
}
