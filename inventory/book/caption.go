package book

import (
	"bytes"
	"encoding/json"
	"strconv"

	"steeltally/inventory"
)

// caption is the part of an event that places it in the journal.
type caption struct {
	Writer   inventory.Writer `json:"writer"`
	Sequence uint64           `json:"seq"`
	Logical  uint64           `json:"logical"`
	More     int              `json:"more"`
}

// captionOf reads the caption of a line that must be as it was written.
func captionOf(line []byte) (caption, order, error) {
	if err := checkLine(line); err != nil {
		return caption{}, order{}, err
	}
	c, ok := quickCaption(line)
	if !ok {
		c = caption{}
		if err := json.Unmarshal(line, &c); err != nil {
			return c, order{}, lineError("it is not an event: " + err.Error())
		}
	}
	at, err := newOrder(c.Logical, c.Writer, c.Sequence)
	return c, at, err
}

// quickCaption reads the caption of a line whose members come in the order in which
// this program writes them; it does so several times as fast as the general way, and
// verify spends most of its time here.
func quickCaption(line []byte) (c caption, ok bool) {
	writer, rest, ok := quickText(line, `{"writer":"`)
	if !ok || len(writer) != 2*writerBytes || len(bytes.Trim(writer, "0123456789abcdef")) > 0 {
		return c, false
	}
	c.Writer = inventory.Writer(writer)
	if c.Sequence, rest, ok = quickNumber(rest, `,"seq":`); !ok {
		return c, false
	}
	if c.Logical, rest, ok = quickNumber(rest, `,"logical":`); !ok {
		return c, false
	}
	for _, name := range []string{`,"happened":"`, `,"noted":"`, `,"who":"`, `,"ticket":"`} {
		if _, after, found := quickText(rest, name); found {
			rest = after
		}
	}
	const more, kind = `,"more":`, `,"kind":"`
	if number, after, found := quickNumber(rest, more); found && 0 < number && number <= longestLine {
		c.More, rest = int(number), after
	}
	return c, bytes.HasPrefix(rest, []byte(kind)) && !bytes.Contains(rest, []byte(more))
}

// quickText reads a text after a member's name and its opening quotation mark, with
// escapes as they are, and what follows it.
func quickText(line []byte, name string) (text, rest []byte, ok bool) {
	if !bytes.HasPrefix(line, []byte(name)) {
		return nil, nil, false
	}
	line = line[len(name):]
	for at := 0; at < len(line); at++ {
		switch line[at] {
		case '\\':
			at++
		case '"':
			return line[:at], line[at+1:], true
		}
	}
	return nil, nil, false
}

// quickNumber reads a whole number after a member's name, and what follows it.
func quickNumber(text []byte, name string) (number uint64, rest []byte, ok bool) {
	if !bytes.HasPrefix(text, []byte(name)) {
		return 0, nil, false
	}
	text = text[len(name):]
	end := bytes.IndexByte(text, ',')
	if end <= 0 || text[0] == '0' || text[0] == '+' {
		return 0, nil, false
	}
	number, err := strconv.ParseUint(string(text[:end]), 10, 64)
	return number, text[end:], err == nil
}
