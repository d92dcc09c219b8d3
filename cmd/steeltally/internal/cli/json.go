package cli

import (
	"encoding/json"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// joined writes the members of all parts as one JSON object.
func joined(parts []any) (string, error) {
	var members []string
	for _, part := range parts {
		var text strings.Builder
		encoder := json.NewEncoder(&text)
		encoder.SetEscapeHTML(false)
		if err := encoder.Encode(part); err != nil {
			return "", err
		}
		if inner := strings.TrimSuffix(strings.TrimPrefix(text.String(), "{"), "}\n"); inner != "" {
			members = append(members, inner)
		}
	}
	object := "{" + strings.Join(members, ",") + "}\n"
	return negativeZero.ReplaceAllString(object, "${1}0${2}"), nil
}

var (
	negativeZero = regexp.MustCompile(`(\w":)-0([,}])`)
	lengths      = regexp.MustCompile(`_mm":(?:\[[^\]]*|\{[^}]*|[^,}\]]*)`)
	figures      = regexp.MustCompile(`([:\[,])(-?[0-9][0-9.e+-]*)`)
)

// thousandths rounds every length in an object to a thousandth of a millimetre.
func thousandths(object string) string {
	return lengths.ReplaceAllStringFunc(object, func(member string) string {
		return figures.ReplaceAllStringFunc(member, func(found string) string {
			length, err := strconv.ParseFloat(found[1:], 64)
			if err != nil {
				return found
			}
			return found[:1] + strconv.FormatFloat(math.Round(1000*length)/1000+0, 'f', -1, 64)
		})
	})
}
