package picture

// Strips shares rows 0 to height among workers, each a strip of neighbouring
// rows, and waits for all. Fewer than one worker counts as one.
func Strips(height, workers int, work func(from, to int)) {
	workers = min(max(workers, 1), max(height, 1))
	var group Crew
	for i := range workers {
		from, to := height*i/workers, height*(i+1)/workers
		group.Go(func() { work(from, to) })
	}
	group.Wait()
}
