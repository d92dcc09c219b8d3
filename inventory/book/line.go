package book

import (
	"fmt"
	"hash/crc32"
	"strconv"

	"steeltally/inventory"
)

// A line of the journal ends with its checksum: ,"crc32c":"xxxxxxxx"}
const (
	checksumName   = `,"crc32c":"`
	checksumDigits = 8
	checksumEnd    = `"}`
	checksumTail   = len(checksumName) + checksumDigits + len(checksumEnd)
	longestLine    = 1 << 20
)

func checksum(data []byte) uint32 { return crc32.Checksum(data, crc32.MakeTable(crc32.Castagnoli)) }

// encodeLine writes an event as the journal keeps it, without the line's end.
func encodeLine(e *inventory.Event) ([]byte, error) {
	text, err := e.MarshalJSON()
	if err != nil {
		return nil, fmt.Errorf("event %v cannot be written: %w", e.Key, err)
	}
	text = text[:len(text)-1]
	line := fmt.Appendf(text, `%s%08x%s`, checksumName, checksum(text), checksumEnd)
	if len(line) > longestLine {
		return nil, fmt.Errorf("event %v has %d bytes, the most is %d: record it in smaller parts", e.Key, len(line), longestLine)
	}
	return line, nil
}

// lineError says why a line is not an event as it was written.
type lineError string

func (e lineError) Error() string { return string(e) }

// checkLine tells whether a line is as it was written.
func checkLine(line []byte) error {
	start := len(line) - checksumTail
	if len(line) > longestLine {
		return lineError(fmt.Sprintf("it is longer than %d bytes", longestLine))
	}
	if start < 1 || string(line[start:start+len(checksumName)]) != checksumName || string(line[len(line)-len(checksumEnd):]) != checksumEnd {
		return lineError("it has no checksum")
	}
	digits := line[start+len(checksumName) : len(line)-len(checksumEnd)]
	sum, err := strconv.ParseUint(string(digits), 16, 32)
	if err != nil || fmt.Sprintf("%08x", sum) != string(digits) {
		return lineError("its checksum is not one")
	}
	if uint32(sum) != checksum(line[:start]) {
		return lineError("its checksum does not fit")
	}
	return nil
}

// decodeLine reads a line that must be as it was written.
func decodeLine(line []byte) (*inventory.Event, error) {
	if err := checkLine(line); err != nil {
		return nil, err
	}
	var e inventory.Event
	if err := e.UnmarshalJSON(line); err != nil {
		return nil, lineError("it is not an event: " + err.Error())
	}
	if _, err := orderOf(&e); err != nil {
		return nil, err
	}
	return &e, nil
}
