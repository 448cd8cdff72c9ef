-- CreateSchema
CREATE SCHEMA IF NOT EXISTS "public";

-- CreateTable
CREATE TABLE "clinics" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "name" TEXT NOT NULL,
    "time_zone" TEXT NOT NULL,
    "is_demo" BOOLEAN NOT NULL DEFAULT false,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "clinics_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "settings" (
    "key" TEXT NOT NULL,
    "value" JSONB NOT NULL,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "settings_pkey" PRIMARY KEY ("key")
);

-- CreateTable
CREATE TABLE "imports" (
    "id" SERIAL NOT NULL,
    "source" TEXT NOT NULL,
    "is_full" BOOLEAN NOT NULL DEFAULT false,
    "is_accepted" BOOLEAN NOT NULL DEFAULT false,
    "status" TEXT NOT NULL,
    "message" TEXT,
    "question" JSONB,
    "as_of" DATE NOT NULL,
    "upload_path" TEXT,
    "done_bytes" BIGINT NOT NULL DEFAULT 0,
    "total_bytes" BIGINT NOT NULL DEFAULT 0,
    "started_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "finished_at" TIMESTAMPTZ(3),

    CONSTRAINT "imports_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "import_files" (
    "import_id" INTEGER NOT NULL,
    "file" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "data_rows" INTEGER NOT NULL,
    "added" INTEGER NOT NULL,
    "changed" INTEGER NOT NULL,
    "unchanged" INTEGER NOT NULL,
    "withdrawn" INTEGER NOT NULL,
    "held" INTEGER NOT NULL,
    "rejected" INTEGER NOT NULL,
    "is_rejected" BOOLEAN NOT NULL DEFAULT false,
    "notes" JSONB NOT NULL,

    CONSTRAINT "import_files_pkey" PRIMARY KEY ("import_id","file")
);

-- CreateTable
CREATE TABLE "rejected_rows" (
    "id" BIGSERIAL NOT NULL,
    "import_id" INTEGER NOT NULL,
    "file" TEXT NOT NULL,
    "line" INTEGER NOT NULL,
    "column_name" TEXT,
    "value" TEXT,
    "code" TEXT NOT NULL,
    "message" TEXT NOT NULL,
    "original" TEXT NOT NULL,

    CONSTRAINT "rejected_rows_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "drug_name_mappings" (
    "text" TEXT NOT NULL,
    "ingredients" TEXT[],
    "is_ignored" BOOLEAN NOT NULL DEFAULT false,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "drug_name_mappings_pkey" PRIMARY KEY ("text")
);

-- CreateTable
CREATE TABLE "snapshot_builds" (
    "id" SERIAL NOT NULL,
    "status" TEXT NOT NULL,
    "message" TEXT,
    "file_name" TEXT,
    "started_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "finished_at" TIMESTAMPTZ(3),

    CONSTRAINT "snapshot_builds_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "patients" (
    "patient_id" TEXT NOT NULL,
    "public_id" UUID NOT NULL DEFAULT gen_random_uuid(),

    CONSTRAINT "patients_pkey" PRIMARY KEY ("patient_id")
);

-- CreateTable
CREATE TABLE "staff" (
    "import_id" INTEGER NOT NULL,
    "line" INTEGER NOT NULL,
    "key" UUID NOT NULL,
    "hash" UUID NOT NULL,
    "known_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3),
    "ended_by" INTEGER,
    "end_reason" TEXT,
    "staff_id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "role" TEXT NOT NULL,
    "site" TEXT,

    CONSTRAINT "staff_pkey" PRIMARY KEY ("import_id","line")
);

-- CreateTable
CREATE TABLE "patient_records" (
    "import_id" INTEGER NOT NULL,
    "line" INTEGER NOT NULL,
    "key" UUID NOT NULL,
    "hash" UUID NOT NULL,
    "known_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3),
    "ended_by" INTEGER,
    "end_reason" TEXT,
    "patient_id" TEXT NOT NULL,
    "given_name" TEXT,
    "family_name" TEXT,
    "birth_date" DATE NOT NULL,
    "sex" TEXT NOT NULL,
    "language" TEXT,
    "interpreter_needed" BOOLEAN,
    "race" TEXT,
    "ethnicity" TEXT,
    "phone" TEXT,
    "email" TEXT,
    "postal_code" TEXT,
    "preferred_contact" TEXT,
    "do_not_contact" BOOLEAN,
    "clinician_id" TEXT,
    "site" TEXT,
    "registered_on" DATE NOT NULL,
    "left_on" DATE,
    "left_reason" TEXT,
    "died_on" DATE,
    "merged_into" TEXT,
    "is_test" BOOLEAN,

    CONSTRAINT "patient_records_pkey" PRIMARY KEY ("import_id","line")
);

-- CreateTable
CREATE TABLE "visits" (
    "import_id" INTEGER NOT NULL,
    "line" INTEGER NOT NULL,
    "key" UUID NOT NULL,
    "hash" UUID NOT NULL,
    "known_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3),
    "ended_by" INTEGER,
    "end_reason" TEXT,
    "patient_id" TEXT NOT NULL,
    "visit_id" TEXT NOT NULL,
    "started_on" DATE NOT NULL,
    "ended_on" DATE,
    "kind" TEXT NOT NULL,
    "clinician_id" TEXT,

    CONSTRAINT "visits_pkey" PRIMARY KEY ("import_id","line")
);

-- CreateTable
CREATE TABLE "appointments" (
    "import_id" INTEGER NOT NULL,
    "line" INTEGER NOT NULL,
    "key" UUID NOT NULL,
    "hash" UUID NOT NULL,
    "known_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3),
    "ended_by" INTEGER,
    "end_reason" TEXT,
    "patient_id" TEXT NOT NULL,
    "appointment_id" TEXT NOT NULL,
    "starts_at" TIMESTAMPTZ(3) NOT NULL,
    "is_date_only" BOOLEAN NOT NULL,
    "clinician_id" TEXT,
    "kind" TEXT,
    "status" TEXT NOT NULL,

    CONSTRAINT "appointments_pkey" PRIMARY KEY ("import_id","line")
);

-- CreateTable
CREATE TABLE "readings" (
    "import_id" INTEGER NOT NULL,
    "line" INTEGER NOT NULL,
    "key" UUID NOT NULL,
    "hash" UUID NOT NULL,
    "known_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3),
    "ended_by" INTEGER,
    "end_reason" TEXT,
    "patient_id" TEXT NOT NULL,
    "reading_id" TEXT,
    "occurrence" INTEGER NOT NULL DEFAULT 1,
    "taken_at" TIMESTAMPTZ(3) NOT NULL,
    "is_date_only" BOOLEAN NOT NULL,
    "systolic" DECIMAL NOT NULL,
    "diastolic" DECIMAL NOT NULL,
    "setting" TEXT NOT NULL,
    "pulse" DECIMAL,

    CONSTRAINT "readings_pkey" PRIMARY KEY ("import_id","line")
);

-- CreateTable
CREATE TABLE "lab_results" (
    "import_id" INTEGER NOT NULL,
    "line" INTEGER NOT NULL,
    "key" UUID NOT NULL,
    "hash" UUID NOT NULL,
    "known_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3),
    "ended_by" INTEGER,
    "end_reason" TEXT,
    "patient_id" TEXT NOT NULL,
    "lab_id" TEXT,
    "occurrence" INTEGER NOT NULL DEFAULT 1,
    "collected_at" TIMESTAMPTZ(3) NOT NULL,
    "is_date_only" BOOLEAN NOT NULL,
    "test" TEXT NOT NULL,
    "loinc" TEXT,
    "is_used" BOOLEAN NOT NULL,
    "comparator" TEXT,
    "value" DECIMAL,
    "number" DECIMAL,
    "unit" TEXT,
    "value_text" TEXT NOT NULL,
    "unit_text" TEXT,
    "status" TEXT NOT NULL,
    "is_haemolysed" BOOLEAN,

    CONSTRAINT "lab_results_pkey" PRIMARY KEY ("import_id","line")
);

-- CreateTable
CREATE TABLE "medication_orders" (
    "import_id" INTEGER NOT NULL,
    "line" INTEGER NOT NULL,
    "key" UUID NOT NULL,
    "hash" UUID NOT NULL,
    "known_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3),
    "ended_by" INTEGER,
    "end_reason" TEXT,
    "patient_id" TEXT NOT NULL,
    "order_id" TEXT,
    "drug" TEXT NOT NULL,
    "code_system" TEXT,
    "code" TEXT,
    "dose" DECIMAL,
    "dose_unit" TEXT,
    "times_per_day" DECIMAL,
    "as_needed" BOOLEAN,
    "route" TEXT,
    "started_on" DATE NOT NULL,
    "stopped_on" DATE,
    "stop_reason" TEXT,
    "supply_days" DECIMAL,

    CONSTRAINT "medication_orders_pkey" PRIMARY KEY ("import_id","line")
);

-- CreateTable
CREATE TABLE "problems" (
    "import_id" INTEGER NOT NULL,
    "line" INTEGER NOT NULL,
    "key" UUID NOT NULL,
    "hash" UUID NOT NULL,
    "known_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3),
    "ended_by" INTEGER,
    "end_reason" TEXT,
    "patient_id" TEXT NOT NULL,
    "problem_id" TEXT,
    "code_system" TEXT,
    "code" TEXT,
    "description" TEXT,
    "onset_on" DATE,
    "resolved_on" DATE,
    "recorded_on" DATE,
    "verification" TEXT NOT NULL,

    CONSTRAINT "problems_pkey" PRIMARY KEY ("import_id","line")
);

-- CreateTable
CREATE TABLE "allergies" (
    "import_id" INTEGER NOT NULL,
    "line" INTEGER NOT NULL,
    "key" UUID NOT NULL,
    "hash" UUID NOT NULL,
    "known_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3),
    "ended_by" INTEGER,
    "end_reason" TEXT,
    "patient_id" TEXT NOT NULL,
    "substance" TEXT NOT NULL,
    "reaction" TEXT,
    "kind" TEXT,
    "recorded_on" DATE,

    CONSTRAINT "allergies_pkey" PRIMARY KEY ("import_id","line")
);

-- CreateTable
CREATE TABLE "diet_records" (
    "import_id" INTEGER NOT NULL,
    "line" INTEGER NOT NULL,
    "key" UUID NOT NULL,
    "hash" UUID NOT NULL,
    "known_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3),
    "ended_by" INTEGER,
    "end_reason" TEXT,
    "patient_id" TEXT NOT NULL,
    "diet_id" TEXT,
    "recorded_on" DATE NOT NULL,
    "method" TEXT NOT NULL,
    "sodium_mg" DECIMAL NOT NULL,
    "potassium_mg" DECIMAL,
    "energy_kcal" DECIMAL,
    "protein_g" DECIMAL,

    CONSTRAINT "diet_records_pkey" PRIMARY KEY ("import_id","line")
);

-- CreateIndex
CREATE INDEX "rejected_rows_import_id_file_line_idx" ON "rejected_rows"("import_id", "file", "line");

-- CreateIndex
CREATE UNIQUE INDEX "patients_public_id_key" ON "patients"("public_id");

-- AddForeignKey
ALTER TABLE "import_files" ADD CONSTRAINT "import_files_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "imports"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "rejected_rows" ADD CONSTRAINT "rejected_rows_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "imports"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "staff" ADD CONSTRAINT "staff_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "imports"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "patient_records" ADD CONSTRAINT "patient_records_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "imports"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "patient_records" ADD CONSTRAINT "patient_records_patient_id_fkey" FOREIGN KEY ("patient_id") REFERENCES "patients"("patient_id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "visits" ADD CONSTRAINT "visits_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "imports"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "visits" ADD CONSTRAINT "visits_patient_id_fkey" FOREIGN KEY ("patient_id") REFERENCES "patients"("patient_id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "appointments" ADD CONSTRAINT "appointments_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "imports"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "appointments" ADD CONSTRAINT "appointments_patient_id_fkey" FOREIGN KEY ("patient_id") REFERENCES "patients"("patient_id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "readings" ADD CONSTRAINT "readings_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "imports"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "readings" ADD CONSTRAINT "readings_patient_id_fkey" FOREIGN KEY ("patient_id") REFERENCES "patients"("patient_id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lab_results" ADD CONSTRAINT "lab_results_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "imports"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lab_results" ADD CONSTRAINT "lab_results_patient_id_fkey" FOREIGN KEY ("patient_id") REFERENCES "patients"("patient_id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "medication_orders" ADD CONSTRAINT "medication_orders_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "imports"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "medication_orders" ADD CONSTRAINT "medication_orders_patient_id_fkey" FOREIGN KEY ("patient_id") REFERENCES "patients"("patient_id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "problems" ADD CONSTRAINT "problems_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "imports"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "problems" ADD CONSTRAINT "problems_patient_id_fkey" FOREIGN KEY ("patient_id") REFERENCES "patients"("patient_id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "allergies" ADD CONSTRAINT "allergies_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "imports"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "allergies" ADD CONSTRAINT "allergies_patient_id_fkey" FOREIGN KEY ("patient_id") REFERENCES "patients"("patient_id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "diet_records" ADD CONSTRAINT "diet_records_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "imports"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "diet_records" ADD CONSTRAINT "diet_records_patient_id_fkey" FOREIGN KEY ("patient_id") REFERENCES "patients"("patient_id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- What the schema language cannot say.

-- Of every fact one version at most is in force, and every version that ended says why.
CREATE UNIQUE INDEX staff_in_force ON staff (key) WHERE ended_at IS NULL;
CREATE UNIQUE INDEX patient_records_in_force ON patient_records (key) WHERE ended_at IS NULL;
CREATE UNIQUE INDEX visits_in_force ON visits (key) WHERE ended_at IS NULL;
CREATE UNIQUE INDEX appointments_in_force ON appointments (key) WHERE ended_at IS NULL;
CREATE UNIQUE INDEX readings_in_force ON readings (key, occurrence) WHERE ended_at IS NULL;
CREATE UNIQUE INDEX lab_results_in_force ON lab_results (key, occurrence) WHERE ended_at IS NULL;
CREATE UNIQUE INDEX medication_orders_in_force ON medication_orders (key) WHERE ended_at IS NULL;
CREATE UNIQUE INDEX problems_in_force ON problems (key) WHERE ended_at IS NULL;
CREATE UNIQUE INDEX allergies_in_force ON allergies (key) WHERE ended_at IS NULL;
CREATE UNIQUE INDEX diet_records_in_force ON diet_records (key) WHERE ended_at IS NULL;

ALTER TABLE staff ADD CONSTRAINT staff_version CHECK (
  line >= 1 AND (ended_at IS NULL) = (end_reason IS NULL)
  AND (ended_by IS NULL OR ended_at IS NOT NULL)
  AND end_reason IN ('superseded', 'withdrawn', 'discarded', 'rejected')
);
ALTER TABLE patient_records ADD CONSTRAINT patient_records_version CHECK (
  line >= 1 AND (ended_at IS NULL) = (end_reason IS NULL)
  AND (ended_by IS NULL OR ended_at IS NOT NULL)
  AND end_reason IN ('superseded', 'withdrawn', 'discarded', 'rejected')
);
ALTER TABLE visits ADD CONSTRAINT visits_version CHECK (
  line >= 1 AND (ended_at IS NULL) = (end_reason IS NULL)
  AND (ended_by IS NULL OR ended_at IS NOT NULL)
  AND end_reason IN ('superseded', 'withdrawn', 'discarded', 'rejected')
);
ALTER TABLE appointments ADD CONSTRAINT appointments_version CHECK (
  line >= 1 AND (ended_at IS NULL) = (end_reason IS NULL)
  AND (ended_by IS NULL OR ended_at IS NOT NULL)
  AND end_reason IN ('superseded', 'withdrawn', 'discarded', 'rejected')
);
ALTER TABLE readings ADD CONSTRAINT readings_version CHECK (
  line >= 1 AND occurrence >= 1 AND (ended_at IS NULL) = (end_reason IS NULL)
  AND (ended_by IS NULL OR ended_at IS NOT NULL)
  AND end_reason IN ('superseded', 'withdrawn', 'discarded', 'rejected')
);
ALTER TABLE lab_results ADD CONSTRAINT lab_results_version CHECK (
  line >= 1 AND occurrence >= 1 AND (ended_at IS NULL) = (end_reason IS NULL)
  AND (ended_by IS NULL OR ended_at IS NOT NULL)
  AND end_reason IN ('superseded', 'withdrawn', 'discarded', 'rejected')
);
ALTER TABLE medication_orders ADD CONSTRAINT medication_orders_version CHECK (
  line >= 1 AND (ended_at IS NULL) = (end_reason IS NULL)
  AND (ended_by IS NULL OR ended_at IS NOT NULL)
  AND end_reason IN ('superseded', 'withdrawn', 'discarded', 'rejected')
);
ALTER TABLE problems ADD CONSTRAINT problems_version CHECK (
  line >= 1 AND (ended_at IS NULL) = (end_reason IS NULL)
  AND (ended_by IS NULL OR ended_at IS NOT NULL)
  AND end_reason IN ('superseded', 'withdrawn', 'discarded', 'rejected')
);
ALTER TABLE allergies ADD CONSTRAINT allergies_version CHECK (
  line >= 1 AND (ended_at IS NULL) = (end_reason IS NULL)
  AND (ended_by IS NULL OR ended_at IS NOT NULL)
  AND end_reason IN ('superseded', 'withdrawn', 'discarded', 'rejected')
);
ALTER TABLE diet_records ADD CONSTRAINT diet_records_version CHECK (
  line >= 1 AND (ended_at IS NULL) = (end_reason IS NULL)
  AND (ended_by IS NULL OR ended_at IS NOT NULL)
  AND end_reason IN ('superseded', 'withdrawn', 'discarded', 'rejected')
);

-- The limits and word lists of the extract contract, repeated so that nothing else can write past them.
ALTER TABLE staff ADD CONSTRAINT staff_words CHECK (
  role IN ('nephrologist', 'dietitian', 'coordinator', 'nurse', 'other')
);

ALTER TABLE patient_records ADD CONSTRAINT patient_records_words CHECK (
  sex IN ('female', 'male', 'unknown')
  AND preferred_contact IN ('phone', 'text', 'email', 'letter', 'portal')
  AND left_reason IN ('moved', 'transferred', 'discharged', 'declined', 'died')
);
ALTER TABLE patient_records ADD CONSTRAINT patient_records_dates CHECK (
  registered_on >= birth_date AND died_on >= birth_date AND left_on >= registered_on
);

ALTER TABLE visits ADD CONSTRAINT visits_words CHECK (
  kind IN ('office', 'telehealth', 'emergency', 'inpatient', 'dialysis')
);
ALTER TABLE visits ADD CONSTRAINT visits_dates CHECK (ended_on >= started_on);

ALTER TABLE appointments ADD CONSTRAINT appointments_words CHECK (
  kind IN ('office', 'telehealth', 'emergency', 'inpatient', 'dialysis')
  AND status IN ('booked', 'kept', 'cancelled', 'missed')
);

ALTER TABLE readings ADD CONSTRAINT readings_limits CHECK (
  systolic BETWEEN 50 AND 300 AND diastolic BETWEEN 20 AND 200 AND systolic > diastolic
  AND setting IN ('office', 'home', 'ambulatory', 'emergency', 'inpatient', 'dialysis')
);

-- Values stand in the test's standard unit: 8.84 to 2652 umol/L is 0.1 to 30 mg/dL of creatinine.
ALTER TABLE lab_results ADD CONSTRAINT lab_results_limits CHECK (
  CASE test
    WHEN 'creatinine' THEN value BETWEEN 8.84 AND 2652
    WHEN 'potassium' THEN value BETWEEN 1.5 AND 10
    WHEN 'uacr' THEN value BETWEEN 0 AND 30000
    WHEN 'upcr' THEN value BETWEEN 0 AND 50000
    WHEN 'urine_sodium_24h' THEN value BETWEEN 5 AND 870
    WHEN 'egfr' THEN value BETWEEN 1 AND 250
    ELSE true
  END
);
ALTER TABLE lab_results ADD CONSTRAINT lab_results_words CHECK (
  status IN ('final', 'corrected', 'preliminary')
  AND comparator IN ('<', '<=', '>', '>=')
  AND (
    test IN (
      'creatinine', 'cystatin_c', 'egfr', 'uacr', 'upcr', 'urine_protein_24h', 'urine_dipstick_protein',
      'potassium', 'bicarbonate', 'haemoglobin', 'hba1c', 'urine_sodium_24h', 'urine_creatinine_24h',
      'urine_sodium_spot', 'urine_creatinine_spot', 'urine_potassium_spot'
    )
    OR test ~ '^[0-9]{1,7}-[0-9]$'
  )
);

ALTER TABLE medication_orders ADD CONSTRAINT medication_orders_limits CHECK (
  dose > 0 AND times_per_day > 0 AND supply_days > 0 AND stopped_on >= started_on
  AND code_system IN ('rxnorm', 'atc', 'snomed', 'ndc')
);

ALTER TABLE problems ADD CONSTRAINT problems_words CHECK (
  verification IN ('confirmed', 'provisional', 'refuted')
  AND code_system IN ('icd10cm', 'icd10', 'snomed')
);
ALTER TABLE problems ADD CONSTRAINT problems_content CHECK (
  num_nonnulls(code, description) > 0 AND resolved_on >= onset_on
);

ALTER TABLE allergies ADD CONSTRAINT allergies_words CHECK (
  kind IN ('allergy', 'intolerance')
  AND reaction IN (
    'angioedema', 'anaphylaxis', 'cough', 'rash', 'hyperkalaemia', 'kidney injury', 'hypotension', 'other'
  )
);

ALTER TABLE diet_records ADD CONSTRAINT diet_records_limits CHECK (
  sodium_mg BETWEEN 100 AND 20000 AND method IN ('recall_24h', 'food_record', 'food_frequency')
);

-- One store, one clinic.
ALTER TABLE clinics ADD CONSTRAINT clinics_single CHECK (id = 1);
