package book

import "slices"

// Latest gives the last entries of the record in fold order, the newest last.
func (b *Book) Latest(limit int) ([]Entry, error) {
	var entries []Entry
	var oldest []byte
	err := b.reading(func(r *reading) error {
		cursor := r.buckets[eventsBucket].Cursor()
		for at, kept := cursor.Last(); at != nil && len(entries) < limit; at, kept = cursor.Prev() {
			e, err := decodeAt(at, unslim(at, kept))
			if err != nil {
				return err
			}
			shown, err := r.entryOf(e)
			if err != nil {
				return err
			}
			entries = append(entries, shown)
			oldest = at
		}
		slices.Reverse(entries)
		return r.intact(eventsBucket, oldest, nil)
	})
	return entries, err
}
