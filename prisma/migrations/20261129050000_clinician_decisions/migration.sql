-- CreateTable
CREATE TABLE "clinician_decisions" (
    "id" SERIAL NOT NULL,
    "patient_id" TEXT NOT NULL,
    "topic" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "note" TEXT,
    "made_on" DATE NOT NULL,
    "made_at" TIMESTAMPTZ(3) NOT NULL,
    "made_by" TEXT NOT NULL,
    "made_by_id" UUID NOT NULL,
    "ends_on" DATE,
    "undone_on" DATE,
    "undone_at" TIMESTAMPTZ(3),
    "undone_by" TEXT,
    "replaced_by_id" INTEGER,

    CONSTRAINT "clinician_decisions_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "clinician_decisions_topic" CHECK ("topic" IN ('ras_blocker', 'pressure', 'sglt2_inhibitor', 'diet')),
    CONSTRAINT "clinician_decisions_kind" CHECK (
        "kind" IN ('planned', 'contraindicated', 'not tolerated', 'patient declined', 'deferred', 'wrong data')),
    CONSTRAINT "clinician_decisions_deferred" CHECK ("kind" <> 'deferred' OR "ends_on" IS NOT NULL),
    CONSTRAINT "clinician_decisions_ends" CHECK ("ends_on" > "made_on"),
    CONSTRAINT "clinician_decisions_undone" CHECK (("undone_at" IS NULL) = ("undone_on" IS NULL))
);

-- CreateIndex
CREATE INDEX "clinician_decisions_patient_id_idx" ON "clinician_decisions"("patient_id");

-- Of a person and a topic one holds at a time.
CREATE UNIQUE INDEX "clinician_decisions_in_force" ON "clinician_decisions"("patient_id", "topic") WHERE "undone_at" IS NULL;

-- AddForeignKey
ALTER TABLE "clinician_decisions" ADD CONSTRAINT "clinician_decisions_patient_id_fkey" FOREIGN KEY ("patient_id") REFERENCES "patients"("patient_id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- As every table with rows about patients.
alter table clinician_decisions enable row level security;
alter table clinician_decisions force row level security;
create policy owner on clinician_decisions to current_user using (true) with check (true);
create policy in_scope on clinician_decisions using (is_in_scope(patient_id)) with check (is_in_scope(patient_id));
