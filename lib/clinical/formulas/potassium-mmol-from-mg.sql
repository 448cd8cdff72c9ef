-- Converts an amount of potassium from mg to mmol.
-- shape: mg mg (0 or more) -> DOUBLE mmol (1 mmol = 1 mEq)
-- absent: null when the value is null
-- throws: nothing
-- source: Prohaska 2022, Standard atomic weights of the elements 2021, Pure Appl Chem 94:573-600, Table 1, doi:10.1515/pac-2019-0603
--   [from memory]
-- example: potassium_mmol_from_mg(2600) = 66.496
create or replace macro potassium_mmol_from_mg(mg) as cast(mg as double) / 39.10;
