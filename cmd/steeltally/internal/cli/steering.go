package cli

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf16"

	"steeltally/inventory"
)

// within puts arguments into a line. Each stays within it, whatever a record, a scan or
// a file holds: what nobody can see is shown.
func within(format string, args []any) string {
	shown := make([]any, len(args))
	for i, arg := range args {
		shown[i] = arg
		if text, ok := arg.(string); ok {
			shown[i] = inventory.Visible(text)
		}
	}
	return fmt.Sprintf(format, shown...)
}

// printedJSON writes what steers a screen as JSON's own escapes: it means the same.
func printedJSON(text string) string {
	var out strings.Builder
	for _, r := range text {
		if r == '\n' || unicode.IsPrint(r) {
			out.WriteRune(r)
			continue
		}
		for _, unit := range utf16.AppendRune(nil, r) {
			fmt.Fprintf(&out, `\u%04x`, unit)
		}
	}
	return out.String()
}
