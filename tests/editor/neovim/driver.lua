-- Drives Neovim's own language client against a server on its standard streams, as a user of another editor would
-- have it. Written for Neovim 0.7 (Debian's), whose `vim.lsp.start_client` later versions still carry.
--
-- The process that starts Neovim hands over, as JSON in CHECK: { command = {…}, root = "…", file = "…" }.

local given = vim.json.decode(os.getenv("CHECK"))
local limit = 15000
local passed, failed = 0, 0

local function say(line)
  io.stdout:write(line .. "\n")
end

-- Runs the event loop until `look` finds something, and returns it.
local function await(what, look)
  local found
  local came = vim.wait(limit, function()
    found = look()
    return found ~= nil and found ~= false
  end, 10)
  if not came then
    error(what .. " did not come within " .. limit / 1000 .. " s", 2)
  end
  return found
end

local function check(title, body)
  local ok, problem = pcall(body)
  if ok then
    passed = passed + 1
    say("ok      " .. title)
  else
    failed = failed + 1
    say("FAILED  " .. title .. "\n" .. tostring(problem))
  end
end

local function same(actual, expected)
  if not vim.deep_equal(actual, expected) then
    error("expected " .. vim.inspect(expected) .. " but got " .. vim.inspect(actual), 2)
  end
end

-- Asks the server about the place of the cursor and returns its answer.
local function ask(method, more)
  local params = vim.tbl_extend("force", vim.lsp.util.make_position_params(), more or {})
  local answers, problem = vim.lsp.buf_request_sync(0, method, params, limit)
  if problem then
    error(problem)
  end
  for _, answer in pairs(answers) do
    if answer.error then
      error(answer.error.message)
    end
    return answer.result
  end
end

vim.o.swapfile = false
-- 0.7 reads `vim.filetype.add` only where a person has opted in; an autocommand works everywhere.
vim.cmd("autocmd BufRead,BufNewFile *.practice setfiletype practice")
vim.cmd("edit " .. vim.fn.fnameescape(given.file))

local client_id = vim.lsp.start_client({ name = "practice", cmd = given.command, root_dir = given.root })
local client = vim.lsp.get_client_by_id(client_id)

check("starts", function()
  await("the server", function()
    return client and client.initialized
  end)
  vim.lsp.buf_attach_client(0, client_id)
  same(vim.bo.filetype, "practice")
end)

-- The number of the first line that holds a text, from 0, and the column at which it stands there.
local function place(text)
  for number, line in ipairs(vim.api.nvim_buf_get_lines(0, 0, -1, true)) do
    local column = line:find(text, 1, true)
    if column then
      return number - 1, column - 1, line
    end
  end
  error("no " .. text)
end

-- The finding of a code on the line of a text, if there is one now.
local function finding(code, text)
  local line = place(text)
  for _, found in ipairs(vim.diagnostic.get(0)) do
    if found.code == code and found.lnum == line then
      return found
    end
  end
end

local asked = '"From the bridge"  in '

check("findings", function()
  await("what a checked plan has", function()
    return finding("walk-restarts", 'term "Summer 2027, seniors"')
  end)
  local number, _, line = place(asked)
  vim.api.nvim_buf_set_lines(0, number, number + 1, true, { (line:gsub("  in C  ", "  in F  ")) })
  local found = await("a Tuesday too high", function()
    return finding("day-upper", asked)
  end)
  assert(found.message:find("5:28 in the upper register for Seniors, of 5:00 at most", 1, true), found.message)
end)

check("hover", function()
  local number, column = place(asked)
  vim.api.nvim_win_set_cursor(0, { number + 1, column + 3 })
  local hover = ask("textDocument/hover")
  assert(hover and vim.inspect(hover.contents):find("Long tones", 1, true), vim.inspect(hover))
end)

check("mend and undo", function()
  local found = finding("day-upper", asked)
  local range = {
    start = { line = found.lnum, character = found.col },
    ["end"] = { line = found.end_lnum, character = found.end_col },
  }
  local told = vim.tbl_extend("keep", { range = range, message = found.message, code = found.code }, found.user_data.lsp or {})
  local actions = ask("textDocument/codeAction", { range = range, context = { diagnostics = { told } } })
  local titles = {}
  local mend
  for _, action in ipairs(actions) do
    table.insert(titles, action.title)
    if action.edit and action.title:find("E major", 1, true) then
      mend = action
    end
  end
  assert(mend, "no mend with a lower key among: " .. table.concat(titles, " / "))
  -- A script's changes are one step of undo; setting this option, even to what it is, begins the next.
  vim.o.undolevels = vim.o.undolevels
  vim.lsp.util.apply_workspace_edit(mend.edit, client.offset_encoding)
  await("the finding's end", function()
    return finding("day-upper", asked) == nil
  end)
  vim.cmd("silent undo")
  await("the finding after undo", function()
    return finding("day-upper", asked)
  end)
end)

check("rename", function()
  vim.o.undolevels = vim.o.undolevels
  local number, column = place('"Last light"')
  vim.api.nvim_win_set_cursor(0, { number + 1, column + 2 })
  vim.lsp.buf.rename("Lantern out")
  await("the rename here", function()
    return vim.fn.search('"Last light"', "nw") == 0 and vim.fn.search('"Lantern out"', "nw") > 0
  end)
  -- The exercise itself stands in another file.
  local book = vim.fn.bufnr(given.root .. "/book.practice")
  assert(book > 0, "the book was not changed")
  local text = table.concat(vim.api.nvim_buf_get_lines(book, 0, -1, true), "\n")
  assert(text:find('exercise "Lantern out"', 1, true), "the book does not have the new name")
end)

check("stops", function()
  client.stop()
  await("the server's end", client.is_stopped)
end)

say(passed .. " passed, " .. failed .. " failed")
vim.cmd(failed == 0 and "qall!" or "cquit!")
