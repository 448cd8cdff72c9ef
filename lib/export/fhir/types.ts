/** The parts of FHIR R4 (hl7.org/fhir/R4) that a month's Bundle is made of. */
export type Coding = { system: string; code: string; display?: string }

export type Concept = { coding?: Coding[]; text?: string }

export type Narrative = { status: "generated"; div: string }

export type Quantity = { value: number; unit?: string; system?: string; code?: string }

export type ReportPopulation = { code: Concept; count: number; subjectResults?: { reference: string } }

export type Stratum = { value: Concept; population?: ReportPopulation[]; measureScore?: Quantity }

export type ReportGroup = {
  code?: Concept
  population: ReportPopulation[]
  measureScore?: Quantity
  stratifier?: { code: Concept[]; stratum: Stratum[] }[]
}

export type MeasureReport = {
  resourceType: "MeasureReport"
  id: string
  text: Narrative
  status: "complete"
  type: "summary" | "subject-list"
  measure: string
  /** Whom the report is limited to; a report of the whole clinic has none. */
  subject?: { type: "Group"; display: string }
  date: string
  reporter: { display: string }
  period: { start: string; end: string }
  improvementNotation: Concept
  group: ReportGroup[]
}

export type MeasurePopulation = {
  code: Concept
  description: string
  criteria: { description: string; language: string; expression: string }
}

export type MeasureResource = {
  resourceType: "Measure"
  id: string
  text: Narrative
  url: string
  version: string
  name: string
  title: string
  status: "active"
  date: string
  publisher: string
  description: string
  purpose: string
  disclaimer: string
  scoring: Concept
  improvementNotation: Concept
  relatedArtifact: { type: "citation"; citation: string }[]
  group: { code?: Concept; population: MeasurePopulation[] }[]
}

export type PatientList = {
  resourceType: "List"
  id: string
  status: "current"
  mode: "snapshot"
  title: string
  date: string
  entry?: { item: { reference: string } }[]
  emptyReason?: Concept
}

export type Resource = MeasureReport | MeasureResource | PatientList

export type Bundle = {
  resourceType: "Bundle"
  id: string
  type: "collection"
  timestamp: string
  entry: { fullUrl: string; resource: Resource }[]
}
