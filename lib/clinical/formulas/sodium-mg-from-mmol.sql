-- Converts an amount of sodium from mmol to mg.
-- shape: mmol mmol (0 or more) -> DOUBLE mg
-- absent: null when the value is null
-- throws: nothing
-- source: Prohaska 2022, Standard atomic weights of the elements 2021, Pure Appl Chem 94:573-600, Table 1, doi:10.1515/pac-2019-0603
--   [from memory]
-- example: sodium_mg_from_mmol(90) = 2069.1
create or replace macro sodium_mg_from_mmol(mmol) as cast(mmol as double) * 22.99;
