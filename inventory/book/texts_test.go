package book_test

import (
	"bytes"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// No text that steers a screen or hides something gets in, whatever the deed: with the
// drafts, with who notes them, with the caller's key, alone or in bulk.
func TestNoUnseenTextIsRecorded(t *testing.T) {
	dir := booktest.Make(t)
	before := filesOf(t, dir).journal
	b := booktest.Open(t, dir)
	for _, text := range []string{"Ylva\x1b[2J", "Ylva\u202e", "Ylva\nRime", "Ylva\u200b", "Bj\xf8rn", "Bj\ufffdrn"} {
		for _, body := range []inventory.Body{
			&inventory.ContainerNoted{Name: text}, &inventory.Damaged{Mode: "crack", Note: text}, &inventory.Placed{Place: inventory.Place{Slot: text}},
			&inventory.CalledUp{Ask: []string{"hollow", text}}, &inventory.Session{Calendar: &inventory.InCalendar{UID: text}},
		} {
			drafts := append(booktest.Opening(), inventory.Draft{Happened: inventory.At(booktest.Noted()), Body: body})
			decide := func(inventory.View) ([]inventory.Draft, error) { return drafts, nil }
			if _, err := b.Record(booktest.Stamp(), decide); err == nil {
				t.Errorf("%q is recorded in %T", text, body)
			}
			err := b.Bulk(func(record book.Recorder) error {
				_, err := record(booktest.Stamp(), decide)
				return err
			})
			if err == nil {
				t.Errorf("%q is recorded in %T in bulk", text, body)
			}
		}
		for _, stamp := range []book.Stamp{{Who: text, Noted: booktest.Noted()}, {Ticket: text, Noted: booktest.Noted()}} {
			if _, err := b.Record(stamp, booktest.Decide); err == nil {
				t.Errorf("%q is recorded in %+v", text, stamp)
			}
		}
	}
	if !bytes.Equal(before, filesOf(t, dir).journal) {
		t.Error("the journal is another one")
	}
	booktest.Record(t, b, booktest.Opening()...)
	if bytes.Equal(before, filesOf(t, dir).journal) {
		t.Error("and what is plain is not recorded either")
	}
}
