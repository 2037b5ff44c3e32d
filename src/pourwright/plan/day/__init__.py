"""The timetable of a pour day: cups through microwaves, hands, injector kits and molds."""
