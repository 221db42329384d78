#!/bin/sh
# The nightly job in short: a night, a second one, a store that is damaged, shared and deleted logs. All of it is make check-team.
exec sh "${TOP:?the source folder}/tests/team.sh" nights store
