package inventory

import (
	"cmp"
	"fmt"
)

// fitKey is what decides whether a runner goes into a holder.
type fitKey struct {
	family, attachment string
	goalkeeper         bool
	size               int // 0: unknown, of a piece known from its tag
	declared           bool
}

func fitOf(v View, s *Stock) fitKey {
	model, known := v.Entity(ModelRef(s.Model)).(*Model)
	if !known || !model.Declared {
		return fitKey{size: s.Size}
	}
	return fitKey{model.Family, model.Attachment, model.Goalkeeper, s.Size, model.Family != ""}
}

// misfit says why a runner can't go into a holder, or nothing where it can as far as
// is known. Common practice, no source: family, length and attachment decide.
func Fits(v View, runner, holder *Stock) (why string, sure bool) {
	r, h := fitOf(v, runner), fitOf(v, holder)
	switch {
	case r.size != h.size && r.size != 0 && h.size != 0:
		return fmt.Sprintf("the runner is a %d, the holder a %d", r.size, h.size), true
	case !r.declared || !h.declared:
		return "what fits is not declared for " + undeclared(r, runner, holder), false
	case r.goalkeeper != h.goalkeeper:
		return "one is a goalkeeper's, the other a skater's", true
	case r.family != h.family:
		return fmt.Sprintf("the runner is for holder family %s, the holder is %s", r.family, h.family), true
	case r.attachment != "" && h.attachment != "" && r.attachment != h.attachment:
		return fmt.Sprintf("the runner is held by %s, the holder holds by %s", r.attachment, h.attachment), true
	}
	return "", true
}

func undeclared(r fitKey, runner, holder *Stock) string {
	model := holder.Model
	if !r.declared {
		model = runner.Model
	}
	return cmp.Or(model, "a piece whose model is not known")
}
