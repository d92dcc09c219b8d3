// Package deeds decides what a thing that a person does comes to: which events are to be
// recorded of it, or why it can't be. A deed looks at the record as it stands at an
// instant, and at nothing else: no clock, no file, no printer.
package deeds
