// Package calendar reads iCalendar files (RFC 5545) as plain entries: when something
// starts, what it is called, and whether it moved or was cancelled. It knows nothing of
// the record, and nothing of clocks: what recurs for ever ends where it is told to.
package calendar
