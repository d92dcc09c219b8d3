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

// quickCaption reads the caption of a line that has the members that this program writes,
// in their order, and no others: a member that is told twice has no meaning of its own. It
// does so several times as fast as the general way, and verify spends most of its time
// here.
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
	for _, name := range []string{`,"happened":"`, `,"noted":"`, `,"who":"`, `,"ticket":"`, `,"asked":"`} {
		if _, after, found := quickText(rest, name); found {
			rest = after
		}
	}
	if number, after, found := quickNumber(rest, `,"more":`); found && 0 < number && number <= longestLine {
		c.More, rest = int(number), after
	}
	if _, rest, ok = quickText(rest, `,"kind":"`); !ok {
		return c, false
	}
	rest, ok = quickObject(rest, `,"body":`)
	return c, ok && len(rest) == checksumTail && bytes.HasPrefix(rest, []byte(checksumName))
}

// quickObject passes over an object after a member's name, and gives what follows it.
func quickObject(line []byte, name string) (rest []byte, ok bool) {
	if !bytes.HasPrefix(line, []byte(name+"{")) {
		return nil, false
	}
	line = line[len(name):]
	depth, inText := 0, false
	for at := 0; at < len(line); at++ {
		switch c := line[at]; {
		case c == '"':
			inText = !inText
		case inText:
			if c == '\\' {
				at++
			}
		case c == '{', c == '[':
			depth++
		case c == '}', c == ']':
			if depth--; depth == 0 {
				return line[at+1:], true
			}
		}
	}
	return nil, false
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
