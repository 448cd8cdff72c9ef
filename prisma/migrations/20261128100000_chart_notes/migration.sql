-- What people write on the charts: changes in practice on a day, and the year that a measure's baseline is taken from.

-- CreateTable
CREATE TABLE "chart_notes" (
    "id" SERIAL NOT NULL,
    "measure_id" TEXT,
    "on_day" DATE NOT NULL,
    "text" TEXT NOT NULL,
    "made_by" TEXT NOT NULL,
    "made_at" TIMESTAMPTZ(3) NOT NULL,
    "undone_by" TEXT,
    "undone_at" TIMESTAMPTZ(3),

    CONSTRAINT "chart_notes_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "chart_baselines" (
    "id" SERIAL NOT NULL,
    "measure_id" TEXT NOT NULL,
    "from_month" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "made_by" TEXT NOT NULL,
    "made_at" TIMESTAMPTZ(3) NOT NULL,
    "undone_by" TEXT,
    "undone_at" TIMESTAMPTZ(3),

    CONSTRAINT "chart_baselines_pkey" PRIMARY KEY ("id")
);
