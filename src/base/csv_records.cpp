// One pass over the text, one record at a time.
#include "base/csv_records.h"

namespace driftbench::base {

bool CsvRecords::is_at_line_end() const {
  return text_[at_] == '\n' || text_[at_] == '\r';
}

Result<CsvRow> CsvRecords::next() {
  skip_empty_lines();
  CsvRow row{line_, {}};
  while (at_ < text_.size()) {
    Result<std::string> cell = text_[at_] == '"' ? quoted_cell() : plain_cell();
    if (!cell) {
      return tl::unexpected<Error>(cell.error());
    }
    row.cells.push_back(std::move(*cell));
    if (at_ >= text_.size() || text_[at_] != separator_) {
      skip_line_end();
      break;
    }
    ++at_;
    // A separator at the very end of the text opens one more, empty cell.
    if (at_ >= text_.size()) {
      row.cells.emplace_back();
    }
  }
  return row;
}

void CsvRecords::skip_line_end() {
  if (at_ < text_.size() && text_[at_] == '\r') {
    ++at_;
    if (at_ < text_.size() && text_[at_] == '\n') {
      ++at_;
    }
    ++line_;
  } else if (at_ < text_.size() && text_[at_] == '\n') {
    ++at_;
    ++line_;
  }
}

void CsvRecords::skip_empty_lines() {
  while (at_ < text_.size() && is_at_line_end()) {
    skip_line_end();
  }
}

Result<std::string> CsvRecords::plain_cell() {
  const std::size_t start = at_;
  while (at_ < text_.size() && text_[at_] != separator_ && !is_at_line_end()) {
    if (text_[at_] == '"') {
      return failure(line_, "a quote inside a cell without quotes",
                     "the whole cell in quotes, with its quotes doubled");
    }
    ++at_;
  }
  return std::string(text_.substr(start, at_ - start));
}

Result<std::string> CsvRecords::quoted_cell() {
  const int first_line = line_;
  std::string cell;
  ++at_;
  while (at_ < text_.size()) {
    const char c = text_[at_++];
    if (c == '"') {
      const bool is_doubled = at_ < text_.size() && text_[at_] == '"';
      if (!is_doubled) {
        return end_of_quoted(std::move(cell));
      }
      ++at_;
    }
    if (c == '\n' || (c == '\r' && (at_ >= text_.size() || text_[at_] != '\n'))) {
      ++line_;
    }
    cell.push_back(c);
  }
  return failure(first_line, "a quote that is never closed", "a closing quote");
}

Result<std::string> CsvRecords::end_of_quoted(std::string cell) {
  if (at_ < text_.size() && text_[at_] != separator_ && !is_at_line_end()) {
    return failure(line_, "text after a closing quote", "a comma or the end of the line");
  }
  return cell;
}

}  // namespace driftbench::base
