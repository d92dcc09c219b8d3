package cli

import (
	"slices"
	"strconv"
	"testing"

	"steeltally/inventory"
)

// A contradiction that is planted into what any output tells is found, for each of the facts
// that it has to tell; and so is an output that stops telling it.
func TestPlantedContradictionsAreFound(t *testing.T) {
	s := newStream(t, 1).aged(t, 3)
	w := s.window()
	var gathered [][]*telling
	for step := range 2 * stepsOfStream {
		line, object, told := s.step()
		if step%6 != 5 && !(told && line[0] == "emergency") {
			continue
		}
		all := s.gather(w, s.numbers(inventory.KindPlayer), slices.Concat(s.numbers(inventory.KindRunner), s.numbers(inventory.KindHolder), s.numbers(inventory.KindSet), s.numbers(inventory.KindPair)))
		if told && !slices.Contains(line, "--at") {
			all = append(all, afterDeed(line, object))
		}
		if wrong := judge(all); len(wrong) > 0 {
			t.Fatalf("after %q: %v", line, wrong)
		}
		gathered = append(gathered, all)
	}
	for output, facts := range toTell() {
		for _, f := range facts {
			if !slices.ContainsFunc(gathered, func(all []*telling) bool { return foundWherePlanted(all, output, f) }) {
				t.Errorf("%s tells a wrong %s, and that is not found", output, f)
			}
			if !foundWhereSilent(gathered, output, f) {
				t.Errorf("%s tells no %s any more, and that is not found", output, f)
			}
		}
	}
}

// foundWherePlanted changes one claim of an output, of something of which another output
// tells it, too, and tells whether that is found.
func foundWherePlanted(all []*telling, output string, f fact) bool {
	for _, t := range all {
		for i, c := range t.claims {
			if t.output != output || c.fact != f {
				continue
			}
			t.claims[i].value = another(c)
			found := len(judge(all)) > 0
			t.claims[i] = c
			if found {
				return true
			}
		}
	}
	return false
}

// another is a value of a claim that is not the one that was told.
func another(c claim) string {
	figure, err := strconv.ParseFloat(c.value, 64)
	switch {
	case c.value == "true":
		return "false"
	case c.value == "false":
		return "true"
	case err == nil && c.fact == factHeight:
		return strconv.FormatFloat(figure+1, 'f', 2, 64)
	}
	return c.value + "1"
}

// foundWhereSilent leaves a fact out of all that an output tells.
func foundWhereSilent(gathered [][]*telling, output string, f fact) bool {
	e := &ears{told: map[string]map[fact]int{}}
	for _, all := range gathered {
		var heard []*telling
		for _, t := range all {
			if one := *t; t.output == output {
				one.claims = slices.DeleteFunc(slices.Clone(t.claims), func(c claim) bool { return c.fact == f })
				t = &one
			}
			heard = append(heard, t)
		}
		e.hear(heard)
	}
	whole := &ears{told: map[string]map[fact]int{}}
	for _, all := range gathered {
		whole.hear(all)
	}
	return len(e.lacks()) == len(whole.lacks())+1
}

// A list in another order than that of urgency is found.
func TestPlantedDisorderIsFound(t *testing.T) {
	due := func(standing string, height, change float64) map[string]any {
		return map[string]any{"standing": standing, "change_height_mm": change, "sides": []any{map[string]any{"height_now_mm": height}, map[string]any{"height_now_mm": height + 1}}}
	}
	for _, c := range []struct {
		list  []any
		wants bool
	}{
		{[]any{due("do-not-skate", 9, 8), due("due-now", 6.8, 8.4), due("due-now", 8.3, 8.4), due("coming-up", 9, 8.4)}, false},
		{[]any{due("due-now", 8.3, 8.4), due("due-now", 6.8, 8.4)}, true},
		{[]any{due("coming-up", 9, 8.4), due("due-now", 6.8, 8.4)}, true},
		{[]any{due("due-now", 6.8, 8.4), due("do-not-skate", 9, 8)}, true},
	} {
		told := newTelling("due")
		tellsDue(told, map[string]any{"players": c.list}, names{})
		if found := len(told.disorder) > 0; found != c.wants {
			t.Errorf("%v: found %v", c.list, told.disorder)
		}
	}
	spare := func(state string, minutes float64) map[string]any {
		return map[string]any{"state": state, "minutes_all": minutes, "error": ""}
	}
	worst := newTelling("spares --worst")
	tellsWorst(worst, map[string]any{"players": []any{spare("fix", 3), spare("fix", 8)}}, names{})
	work := newTelling("work")
	tellsWork(work, map[string]any{"work": []any{map[string]any{"sort": "spare"}, map[string]any{"sort": "unsafe"}}}, names{})
	if len(worst.disorder) == 0 || len(work.disorder) == 0 {
		t.Errorf("not found: %v, %v", worst.disorder, work.disorder)
	}
}
