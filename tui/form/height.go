package form

// Lines is the height at which nothing is hidden: the names of the columns, all
// rows, and below a blank line the longest hint.
func (m *Model) Lines() int {
	if m.form == nil {
		return 1
	}
	_, total := m.drawn()
	if m.hasColumns() {
		total++
	}
	return total + 1 + m.reserve
}
