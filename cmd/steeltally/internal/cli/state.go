package cli

import (
	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// stateObject is what is known of a thing, for programs.
func stateObject(h desk.History) map[string]any {
	switch s := h.State.(type) {
	case *inventory.Runner:
		return runnerObject(s, h)
	case *inventory.Holder:
		return map[string]any{"piece": map[string]any{
			"number": s.Number, "kind": s.Number.Kind().String(), "side": s.SideOf(), "state": h.Life,
			"model": s.Model, "size_mm": s.Size, "lot": s.Lot, "place": s.Place(h.At).String(),
			"pair": s.BootAt(h.At).Pair, "runner": s.RunnerAt(h.At), "do_not_skate": s.DoNotSkate(h.At),
		}}
	case *inventory.Set:
		return map[string]any{"piece": map[string]any{
			"number": s.Number, "kind": s.Number.Kind().String(), "set": s.Letter, "state": h.Life, "do_not_skate": h.DoNotSkate,
			"player": s.Player, "left": s.Left, "right": s.Right, "place": s.Place(h.At).String(),
		}}
	case *inventory.Pair:
		return map[string]any{"piece": map[string]any{
			"number": s.Number, "kind": s.Number.Kind().String(), "role": s.Role(h.At), "player": s.Player,
			"set": s.SetAt(h.At), "place": s.Place(h.At).String(), "do_not_skate": h.DoNotSkate,
		}}
	case *inventory.Container:
		return map[string]any{"piece": map[string]any{
			"number": s.Number, "kind": s.Number.Kind().String(), "name": s.Name, "place": s.Place(h.At).String(),
		}}
	case *inventory.Player:
		return map[string]any{"player": map[string]any{
			"number": s.Number, "name": s.Name, "position": s.Position, "sweater": s.Sweater(h.At), "specs": s.SpecsAt(h.At),
		}}
	}
	return nil
}

func runnerObject(r *inventory.Runner, h desk.History) map[string]any {
	wear := r.WearAt(h.At)
	return map[string]any{
		"piece": map[string]any{
			"number": r.Number, "kind": r.Number.Kind().String(), "side": r.SideAt(h.At), "state": h.Life,
			"model": r.Model, "size_mm": r.Size, "thickness_mm": r.Thickness, "lot": r.Lot, "set": r.SetAt(h.At),
			"place": r.Place(h.At).String(), "generation": r.Generation(h.At), "do_not_skate": r.DoNotSkate(h.At),
		},
		"wear": map[string]any{
			"grinds": wear.Grinds, "passes": wear.Passes, "grinds_of_unknown_passes": wear.UnknownWorks,
			"height_new_mm": wear.HeightNew, "height_final_mm": wear.HeightFinal, "height_last_mm": wear.HeightLast,
		},
	}
}
