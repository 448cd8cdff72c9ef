-- Months that were closed, each with what its figures follow from beside the facts known then.

-- CreateTable
CREATE TABLE "month_closings" (
    "id" SERIAL NOT NULL,
    "as_of" DATE NOT NULL,
    "closed_at" TIMESTAMPTZ(3) NOT NULL,
    "closed_by" TEXT NOT NULL,
    "closed_by_id" TEXT NOT NULL,
    "note" TEXT NOT NULL,
    "through_import" INTEGER NOT NULL,
    "time_zone" TEXT NOT NULL,
    "settings" JSONB NOT NULL,
    "mappings" JSONB NOT NULL,
    "definitions" TEXT NOT NULL,
    "figures" JSONB NOT NULL,
    "reopened_at" TIMESTAMPTZ(3),
    "reopened_by" TEXT,
    "reopen_reason" TEXT,

    CONSTRAINT "month_closings_pkey" PRIMARY KEY ("id")
);

-- A month is closed once at a time.
CREATE UNIQUE INDEX month_closings_in_force ON month_closings (as_of) WHERE reopened_at IS NULL;
