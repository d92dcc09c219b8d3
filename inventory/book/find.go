package book

import (
	"encoding/hex"
	"strconv"
	"strings"

	"steeltally/inventory"
)

// Find gives the event with a key.
func (b *Book) Find(key inventory.Key) (Entry, error) {
	var found Entry
	err := b.reading(func(r *reading) error {
		e, err := r.eventOf(key)
		if err != nil {
			return err
		}
		found, err = r.entryOf(e)
		return err
	})
	return found, err
}

// FindTyped gives the event whose key a person typed: "812@c3a9", with as many digits
// of the writer as they like, or "812" where only one writer has an event 812.
func (b *Book) FindTyped(text string) (Entry, error) {
	number, prefix, _ := strings.Cut(strings.ToLower(strings.TrimSpace(text)), "@")
	sequence, err := strconv.ParseUint(number, 10, 64)
	if err != nil {
		return Entry{}, &UnknownEventError{text}
	}
	keys, err := b.keysLike(sequence, prefix)
	switch {
	case err != nil:
		return Entry{}, err
	case len(keys) == 0:
		return Entry{}, &UnknownEventError{text}
	case len(keys) > 1:
		return Entry{}, &AmbiguousError{text, labels(keys)}
	}
	return b.Find(keys[0])
}

// keysLike lists the events with a sequence, of all writers whose id starts so.
func (b *Book) keysLike(sequence uint64, prefix string) ([]inventory.Key, error) {
	var keys []inventory.Key
	err := b.reading(func(r *reading) error {
		for _, id := range r.head.Writers {
			writer := hex.EncodeToString(id[:])
			packed, err := packKey(inventory.Key{Writer: inventory.Writer(writer), Sequence: sequence})
			if err != nil || !strings.HasPrefix(writer, prefix) {
				continue
			}
			_, found, err := r.find(packed)
			if err != nil {
				return err
			}
			if found {
				keys = append(keys, packed.key())
			}
		}
		return nil
	})
	return keys, err
}

// labels writes keys short, or whole where the short ones are alike.
func labels(keys []inventory.Key) []string {
	texts := make([]string, len(keys))
	seen := map[string]bool{}
	alike := false
	for i, key := range keys {
		texts[i] = key.String()
		alike = alike || seen[texts[i]]
		seen[texts[i]] = true
	}
	for i := range keys {
		if whole, err := keys[i].MarshalText(); alike && err == nil {
			texts[i] = string(whole)
		}
	}
	return texts
}
