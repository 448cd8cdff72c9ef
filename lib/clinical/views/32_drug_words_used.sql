-- The class and kind words in use, numbered in the order of the alphabet, so that a set of them is one number.
select 'class' as what, used.class as word, row_number() over (order by used.class) - 1 as place
from (select distinct c.class from class_orders as c) as used
union all
select 'kind', used.kind, row_number() over (order by used.kind) - 1
from (select distinct c.kind from class_orders as c where c.kind is not null) as used
