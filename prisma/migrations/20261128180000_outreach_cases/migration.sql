-- What is being done about the reasons to contact a person: one case a record, its reasons, and a history that is only added to.

-- CreateTable
CREATE TABLE "outreach_cases" (
    "id" SERIAL NOT NULL,
    "patient_id" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "kept_from" TEXT,
    "assigned_to" UUID,
    "snoozed_until" DATE,
    "again_on" DATE,
    "acknowledged_at" TIMESTAMPTZ(3),
    "acknowledged_by" UUID,
    "opened_at" TIMESTAMPTZ(3) NOT NULL,
    "closed_at" TIMESTAMPTZ(3),
    "closed_on" DATE,
    "closed_by" TEXT,
    "close_reason" TEXT,
    "held_for" TEXT[] DEFAULT ARRAY[]::TEXT[],
    "held_urgent" TEXT[] DEFAULT ARRAY[]::TEXT[],
    "round" INTEGER NOT NULL DEFAULT 1,
    "version" INTEGER NOT NULL DEFAULT 1,
    "tier" TEXT,
    "place" INTEGER,
    "below_by" TEXT,
    "site" TEXT,
    "clinician" TEXT,
    "next_visit_on" DATE,
    "is_booked_soon" BOOLEAN NOT NULL DEFAULT false,
    "looked_on" DATE NOT NULL,

    CONSTRAINT "outreach_cases_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "outreach_cases_state" CHECK ("state" IN ('open', 'snoozed', 'closed')),
    CONSTRAINT "outreach_cases_snoozed" CHECK (("state" = 'snoozed') = ("snoozed_until" IS NOT NULL)),
    CONSTRAINT "outreach_cases_closed" CHECK (
        ("state" = 'closed') = ("closed_on" IS NOT NULL) AND ("state" = 'closed') = ("close_reason" IS NOT NULL)),
    CONSTRAINT "outreach_cases_kept_from" CHECK ("kept_from" IN ('asked not to be contacted', 'left', 'died')),
    CONSTRAINT "outreach_cases_close_reason" CHECK (
        "close_reason" IN ('done', 'declined', 'moved', 'deceased', 'not appropriate', 'no reason left'))
);

-- CreateTable
CREATE TABLE "outreach_case_reasons" (
    "id" BIGSERIAL NOT NULL,
    "case_id" INTEGER NOT NULL,
    "patient_id" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "is_urgent" BOOLEAN NOT NULL,
    "fact_on" DATE,
    "value" DOUBLE PRECISION,
    "second_value" DOUBLE PRECISION,
    "comparator" TEXT,
    "falls_out_on" DATE,
    "began_on" DATE NOT NULL,
    "ended_on" DATE,

    CONSTRAINT "outreach_case_reasons_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "outreach_events" (
    "id" BIGSERIAL NOT NULL,
    "case_id" INTEGER NOT NULL,
    "patient_id" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "on_day" DATE NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "by_id" UUID,
    "by_name" TEXT NOT NULL,
    "from_state" TEXT,
    "to_state" TEXT NOT NULL,
    "round" INTEGER NOT NULL,
    "why" TEXT,
    "channel" TEXT,
    "outcome" TEXT,
    "until_on" DATE,
    "assigned_to" UUID,
    "note" TEXT,
    "began" JSONB NOT NULL DEFAULT '[]',
    "ended" JSONB NOT NULL DEFAULT '[]',

    CONSTRAINT "outreach_events_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "outreach_cases_patient_id_key" ON "outreach_cases"("patient_id");

-- CreateIndex
CREATE INDEX "outreach_case_reasons_case_id_idx" ON "outreach_case_reasons"("case_id");

-- CreateIndex
CREATE INDEX "outreach_events_case_id_id_idx" ON "outreach_events"("case_id", "id");

-- A reason holds once at a time.
CREATE UNIQUE INDEX "outreach_case_reasons_in_force" ON "outreach_case_reasons"("case_id", "reason") WHERE "ended_on" IS NULL;

-- A page of the list is read in its order, for the whole clinic, a person's own, or a reason.
CREATE INDEX "outreach_cases_list_in_force" ON "outreach_cases"("place") WHERE "state" = 'open' AND "kept_from" IS NULL;
CREATE INDEX "outreach_cases_own_in_force" ON "outreach_cases"("assigned_to", "place") WHERE "state" <> 'closed';
CREATE INDEX "outreach_case_reasons_by_reason_in_force" ON "outreach_case_reasons"("reason", "case_id") WHERE "ended_on" IS NULL;

-- AddForeignKey
ALTER TABLE "outreach_cases" ADD CONSTRAINT "outreach_cases_patient_id_fkey" FOREIGN KEY ("patient_id") REFERENCES "patients"("patient_id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outreach_cases" ADD CONSTRAINT "outreach_cases_assigned_to_fkey" FOREIGN KEY ("assigned_to") REFERENCES "users"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outreach_case_reasons" ADD CONSTRAINT "outreach_case_reasons_case_id_fkey" FOREIGN KEY ("case_id") REFERENCES "outreach_cases"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outreach_events" ADD CONSTRAINT "outreach_events_case_id_fkey" FOREIGN KEY ("case_id") REFERENCES "outreach_cases"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- As every table with rows about patients.
alter table outreach_cases enable row level security;
alter table outreach_cases force row level security;
create policy owner on outreach_cases to current_user using (true) with check (true);
create policy in_scope on outreach_cases using (is_in_scope(patient_id)) with check (is_in_scope(patient_id));

alter table outreach_case_reasons enable row level security;
alter table outreach_case_reasons force row level security;
create policy owner on outreach_case_reasons to current_user using (true) with check (true);
create policy in_scope on outreach_case_reasons using (is_in_scope(patient_id)) with check (is_in_scope(patient_id));

alter table outreach_events enable row level security;
alter table outreach_events force row level security;
create policy owner on outreach_events to current_user using (true) with check (true);
create policy in_scope on outreach_events using (is_in_scope(patient_id)) with check (is_in_scope(patient_id));
