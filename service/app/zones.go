package app

import (
	_ "time/tzdata" // opening hours name a time zone; not every machine has a database of them
)
