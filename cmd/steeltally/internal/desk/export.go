package desk

// Export writes the whole journal to a file and tells how many entries it has.
func (d *Desk) Export(path string) (uint64, error) {
	if err := d.options.outlet(path).write(d.book.Export); err != nil {
		return 0, err
	}
	counts, err := d.book.Counts()
	return counts.Events, err
}
