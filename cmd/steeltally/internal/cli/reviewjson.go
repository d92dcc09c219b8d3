package cli

import (
	"math"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

func noBookNotice() inventory.Notice {
	return inventory.Notice{Text: "there is no book here: this is from the tags alone", Hint: "name the book with --book, or get one back with steeltally rebuild"}
}

func reviewObject(r desk.Review) map[string]any {
	object := map[string]any{
		"scope": r.Scope, "at": r.At, "pieces": r.Pieces,
		"players": []map[string]any{}, "removals": []map[string]any{}, "findings": []map[string]any{},
		"operators": handObjects(r.Operators), "machines": handObjects(r.Machines),
	}
	var players, removals, findings []map[string]any
	places := map[inventory.Number]int{}
	for _, p := range r.Players {
		players = append(players, playerObject(p))
		for _, set := range p.Sets {
			for _, life := range []*desk.Life{set.Left, set.Right} {
				if life != nil {
					places[life.Number] = set.Place
				}
			}
		}
	}
	players = append(players, unworkedObjects(r.Unworked)...)
	for _, life := range r.Removals {
		removals = append(removals, removalObject(life, places[life.Number]))
	}
	for _, f := range r.Findings {
		findings = append(findings, map[string]any{
			"kind": f.Kind, "about": f.About, "words": f.Words, "verdict": f.Verdict, "n": f.N,
			"middle": number(f.Middle), "low": number(f.Low), "high": number(f.High), "unit": f.Unit,
		})
	}
	for name, list := range map[string][]map[string]any{"players": players, "removals": removals, "findings": findings} {
		if list != nil {
			object[name] = list
		}
	}
	if r.Bin != nil {
		object["duplicates"], object["foreign"], object["unknown"] = apart(r.Bin.Duplicates), apart(r.Bin.Foreign), apart(r.Bin.Unknown)
		object["stale"], object["misplaced"] = apart(r.Bin.Stale), apart(r.Bin.Misplaced)
	}
	return object
}

// apart keeps an empty list from becoming null.
func apart(list []desk.Apart) []desk.Apart {
	if list == nil {
		return []desk.Apart{}
	}
	return list
}

// number is a figure for programs; nil where there is no bound.
func number(value float64) any {
	if math.IsInf(value, 0) || math.IsNaN(value) {
		return nil
	}
	return value
}

func playerObject(p *desk.PlayerReview) map[string]any {
	object := map[string]any{
		"sweater": p.Sweater, "name": p.Name, "number": p.Number, "goalkeeper": p.Goalkeeper,
		"pieces": p.Pieces, "sets": len(p.Sets), "life_days": spreadObject(p.Days), "life_sessions": spreadObject(p.Times),
		"life_grinds": spreadObject(p.Grinds), "removal_height_mm": spreadObject(p.Heights),
		"below_change_height": p.Below, "below_after_refusal": p.Refused, "reasons": p.Reasons, "incidents": p.Incidents,
		"loss_mm_per_pass": nil, "left_over_right": nil,
	}
	if p.Loss.Sets > 0 {
		object["loss_mm_per_pass"] = map[string]any{"sets": p.Loss.Sets, "middle": p.Loss.Middle, "low": p.Loss.Low, "high": p.Loss.High}
	}
	if s := p.Sides; s.Sets > 0 {
		object["left_over_right"] = map[string]any{
			"sets": s.Sets, "ratio": s.Ratio, "low": number(s.Low), "high": number(s.High), "verdict": s.Verdict,
			"would_show": number(s.Detectable),
		}
	}
	return object
}

func spreadObject(s desk.Spread) any {
	if s.N == 0 {
		return nil
	}
	return map[string]any{"n": s.N, "lowest": s.Low, "median": s.Middle, "highest": s.High}
}

func removalObject(l *desk.Life, place int) map[string]any {
	source := "book"
	if l.FromTag {
		source = "tag"
	}
	object := map[string]any{
		"number": l.Number, "short": l.Number.Short(), "sweater": l.Sweater, "player": l.Player, "side": l.Side,
		"set_order": place, "set_order_recorded": l.Place, "in": l.In, "out": l.Out, "days": l.Days, "sessions": l.Times,
		"grinds": l.Grinds, "passes": l.Passes, "passes_unknown": l.Unknown,
		"height_new_mm": l.New, "height_final_mm": l.Final, "change_height_mm": l.Change, "below_change_height": l.Below(),
		"reason": l.Reason, "source": source,
	}
	if !l.Hollow.Unknown() {
		object["hollow"] = l.Hollow.String()
	}
	return object
}

func handObjects(hands []desk.Hand) []map[string]any {
	objects := []map[string]any{}
	for _, h := range hands {
		object := map[string]any{"name": h.Name, "passes": h.Passes, "stretches": h.Stretches, "verdict": h.Verdict, "loss_over_usual": nil}
		if h.Stretches > 0 {
			object["loss_over_usual"] = map[string]any{"ratio": h.Ratio, "low": number(h.Low), "high": number(h.High)}
		}
		objects = append(objects, object)
	}
	return objects
}
