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

check("findings", function()
  local findings = await("a finding", function()
    local found = vim.diagnostic.get(0)
    return #found > 0 and found
  end)
  same({ findings[1].lnum, findings[1].col, findings[1].code }, { 2, 5, "louder" })
end)

check("hover", function()
  vim.api.nvim_win_set_cursor(0, { 1, 2 })
  local hover = ask("textDocument/hover")
  assert(hover and hover.contents.value:find("long_tones", 1, true), vim.inspect(hover))
end)

check("quick fix", function()
  local finding = vim.diagnostic.get(0)[1]
  local actions = ask("textDocument/codeAction", {
    range = {
      start = { line = finding.lnum, character = finding.col },
      ["end"] = { line = finding.end_lnum, character = finding.end_col },
    },
    context = { diagnostics = { finding.user_data.lsp and vim.tbl_extend("keep", {
      range = {
        start = { line = finding.lnum, character = finding.col },
        ["end"] = { line = finding.end_lnum, character = finding.end_col },
      },
      message = finding.message,
    }, finding.user_data.lsp) } },
  })
  vim.lsp.util.apply_workspace_edit(actions[1].edit, client.offset_encoding)
  same(vim.api.nvim_buf_get_lines(0, 2, 3, true)[1], "play fuller here")
  await("the finding's end", function()
    return #vim.diagnostic.get(0) == 0
  end)
end)

check("rename and undo", function()
  -- A script's changes are one step of undo; setting this option, even to what it is, begins the next.
  vim.o.undolevels = vim.o.undolevels
  vim.api.nvim_win_set_cursor(0, { 1, 2 })
  vim.lsp.buf.rename("hymns")
  await("the rename", function()
    local lines = vim.api.nvim_buf_get_lines(0, 0, -1, true)
    return lines[1] == "hymns 10" and lines[4] == "hymns 10"
  end)
  vim.cmd("silent undo")
  same(vim.api.nvim_buf_get_lines(0, 0, 1, true)[1], "long_tones 10")
end)

check("typing", function()
  vim.api.nvim_buf_set_lines(0, 0, 0, true, { "sing louder" })
  await("the finding of the new line", function()
    local found = vim.diagnostic.get(0)
    return #found == 1 and found[1].lnum == 0
  end)
end)

check("stops", function()
  client.stop()
  await("the server's end", client.is_stopped)
end)

say(passed .. " passed, " .. failed .. " failed")
vim.cmd(failed == 0 and "qall!" or "cquit!")
