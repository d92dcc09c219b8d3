// Package book keeps the record: a folder with a text journal and a bbolt file, each
// the other's witness.
//
//	journal.jsonl  one event a line, in the order in which they were recorded
//	book.db        the same lines in fold order, the folded states, the indexes
//	lock           who has the book open
//	set-aside.jsonl  events that came from elsewhere and can't be in the record, with why
//	journal.mending  what the journal was, where a mend of it was cut off
//
// A line of the journal is an event as inventory writes it, with one more member at
// its end: the CRC-32C of all bytes before it. An action is appended with one write
// and synced; that is the moment from which on it counts. Then book.db takes it in
// one transaction. So book.db may be behind the journal, never before it.
//
// The buckets of book.db:
//
//	book     "book" → what is said of the book as a whole (see head)
//	events   order of the event → its line, see slim
//	runs     writer, first sequence → first logical time and length of a run
//	tickets  caller's key → order of the first event of its action
//	voids    key of an event, key of a correction that voids it → nothing
//	things   ref, 0 → folded state, packed; ref, 1, order → where its events are
//	flagged  ref of each stored state that the record is unsure of → nothing
//
// Every value but the lines starts with a CRC-32C over its key and the rest.
package book
