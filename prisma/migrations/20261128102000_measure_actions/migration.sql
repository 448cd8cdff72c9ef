-- What the monthly meeting decided about a measure, and who does what until when.

-- CreateTable
CREATE TABLE "measure_actions" (
    "id" SERIAL NOT NULL,
    "measure_id" TEXT NOT NULL,
    "month" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "owner" TEXT,
    "owner_id" UUID,
    "due_on" DATE,
    "state" TEXT NOT NULL DEFAULT 'open',
    "outcome" TEXT,
    "made_by" TEXT NOT NULL,
    "made_at" TIMESTAMPTZ(3) NOT NULL,
    "closed_by" TEXT,
    "closed_at" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "measure_actions_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "measure_actions_kind" CHECK ("kind" IN ('decision', 'action')),
    CONSTRAINT "measure_actions_state" CHECK ("state" IN ('open', 'done', 'dropped')),
    CONSTRAINT "measure_actions_closed" CHECK (("state" = 'open') = ("closed_at" IS NULL)),
    CONSTRAINT "measure_actions_owner" CHECK ("kind" = 'decision' OR "owner" IS NOT NULL),
    CONSTRAINT "measure_actions_due" CHECK ("kind" = 'action' OR "due_on" IS NULL)
);

-- CreateIndex
CREATE INDEX "measure_actions_measure_id_idx" ON "measure_actions"("measure_id");

-- AddForeignKey
ALTER TABLE "measure_actions" ADD CONSTRAINT "measure_actions_owner_id_fkey" FOREIGN KEY ("owner_id") REFERENCES "users"("id") ON DELETE SET NULL ON UPDATE CASCADE;
